import { contradiction } from './contradiction.ts';
import { eventsUpTo, isSameLook, type TubEvent } from './event.ts';

/**
 * Marks the readings that were asked for: where one did not fit, its answer was "test again", and a second look within the hour that shows
 * the same is no double entry.
 *
 * @param events in order of time
 */
export function withAskedLooks(
  events: readonly TubEvent[],
  sourceMgL: number,
  kitStepsMgL: readonly number[],
): TubEvent[] {
  const marked: TubEvent[] = [];
  let last: TubEvent | undefined;
  for (const event of events) {
    const isAsked =
      event.of === 'reading' &&
      last !== undefined &&
      isSameLook(last, event) &&
      contradiction(eventsUpTo(marked, last.day), sourceMgL, kitStepsMgL) !== null;
    marked.push(isAsked ? { ...event, isAsked } : event);
    if (event.of === 'reading') last = marked.at(-1);
  }
  return marked;
}
