import { businessOf, setPartner } from '../../../src/desk/index.ts';
import { postFor } from '../../../src/jobs/posts.ts';
import type { JobNeeds } from '../../../src/jobs/runSlot.ts';
import { type Card, type Voice, voiceFor } from '../../../src/reply/index.ts';
import { type makeChannel, silentLog } from '../../jobs/channel.ts';
import { sellingDeskAt, taken } from '../../support/sellingDesk.ts';

export type Test = ReturnType<typeof sellingDeskAt>;

const opened: Test[] = [];
/** Closes every shop that a test opened. */
export const closeShops = (): void => {
  for (const test of opened.splice(0)) test.close();
};

export function shop(instant: string): Test {
  const test = sellingDeskAt(instant);
  opened.push(test);
  const { desk, by } = test;
  for (const name of ['wren', 'alder']) {
    taken(setPartner(desk, by('wren'), { partner: { userId: `user-${name}`, name, bot: false } }));
  }
  desk.store.settings.startedAt(desk.now());
  return test;
}

export const voiceOf = ({ desk }: Test): Voice => voiceFor(businessOf(desk), desk.now());
export const linesOf = (card: Card): string[] => [
  card.title,
  ...(card.why ?? []),
  ...(card.next === undefined ? [] : [card.next]),
];
export const labelsOf = (card: Card): string[] =>
  (card.controls ?? []).flatMap((row) =>
    row.map((control) => (control.kind === 'button' ? control.label : control.placeholder)),
  );

export const needsOf = ({ desk }: Test, channel: ReturnType<typeof makeChannel>): JobNeeds => ({
  desk,
  posting: channel.posting,
  postOf: (slot, late) => postFor(desk, slot, late),
  log: silentLog,
});
