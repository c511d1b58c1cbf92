import { grownOf, setGrown, takeGrown } from './animals.ts';
import type { Draft } from './colony.ts';
import { memberCount } from './layout.ts';
import { least } from './likelihood.ts';
import { expected, takeIn } from './observe.ts';
import { rangeOf } from './range.ts';
import type { Surprise } from './surprise.ts';

const members = memberCount;
/** Fewer of the members than this could give what was taken: it is pointed out. */
const unlikely = 0.05;

/**
 * What can be taken is no news of mishaps: next to nothing is left to what the model knows nothing of, which would raise the estimate with every sale.
 */
const noneUnknown = 0.001;

/**
 * Takes saleable animals off every member, in place: exactly as many as were sent, lost or moved. A member that held fewer was wrong: so many were
 * there, which is taken in first, as a count of "at least". For a buyer females with eggs stay behind where others are there.
 *
 * @returns a surprise where hardly any member held so many
 */
export function takeSaleable(
  draft: Draft,
  number: number,
  of: 'sent' | 'loss' | 'moveOut',
  entryId: number,
): Surprise | null {
  const { numbers } = draft;
  const held = Float32Array.from({ length: members }, (_, member) => grownOf(numbers, member));
  const able = held.filter((animals) => animals >= number).length / members;
  if (able < 1) {
    const y = expected((member) => held[member] ?? 0);
    takeIn(numbers, y, least(number), everyTrait, (member, animals) => setGrown(numbers, member, animals), noneUnknown);
  }
  for (let member = 0; member < members; member++) takeGrown(numbers, member, number, of === 'sent');
  if (of === 'loss') draft.loggedDeaths += number;
  return able < unlikely ? { entryId, of: 'taken', number, expected: rangeOf(held), chance: able } : null;
}

const everyTrait = (): boolean => true;
