import type { ChatLog } from './chat/index.ts';

/** Work that goes on between the answers. */
export interface Slices {
  /** No further slice begins. */
  stop(): void;
}

/** Does the slices of some work one by one, giving way to whatever else is to be done after each. A bug in it is logged and ends it. */
export function inSlices(work: Iterator<void>, log: ChatLog): Slices {
  let next: NodeJS.Immediate | undefined;
  const slice = (): void => {
    try {
      next = work.next().done === true ? undefined : setImmediate(slice);
    } catch (error) {
      log.error({ err: error }, 'what is believed of the tubs was not brought up to date');
    }
  };
  next = setImmediate(slice);
  return {
    stop: () => {
      if (next !== undefined) clearImmediate(next);
    },
  };
}
