import { commonStep } from '../level/commonStep.ts';
import type { Owed } from './owed.ts';
import type { Piece } from './piece.ts';

/** More partners than this are not looked at in groups, only one by one. */
const mostInGroups = 8;

/**
 * Minutes below which the largest distance between what a partner is given and owes cannot be, whoever does what.
 *
 * Proof: a partner is given a whole multiple of the minutes' common step, so is off by at least the distance from what they owe to the
 * nearest one. And of any group of partners: what only they may do must be theirs, what they may do is the most they can be given; over
 * or under what they owe together by x, one of them is off by x divided by their number.
 */
export function unfairBound(pieces: readonly Piece[], { inAll, counts }: Owed): number {
  const step = commonStep(pieces.map(({ minutes }) => minutes));
  const measured = inAll.flatMap((_, place) => (counts[place] ? [place] : []));
  let most = 0;
  if (step !== null) {
    for (const place of measured) {
      const owed = inAll[place] ?? 0;
      most = Math.max(most, Math.abs(owed - Math.max(0, Math.round(owed / step)) * step));
    }
  }
  for (const group of groupsOf(measured)) {
    const owed = group.reduce((sum, place) => sum + (inAll[place] ?? 0), 0);
    let only = 0;
    let any = 0;
    for (const { able, minutes } of pieces) {
      if (able.every((place) => group.includes(place))) only += minutes;
      if (able.some((place) => group.includes(place))) any += minutes;
    }
    most = Math.max(most, (only - owed) / group.length, (owed - any) / group.length);
  }
  return most;
}

function groupsOf(places: readonly number[]): number[][] {
  if (places.length > mostInGroups) return places.map((place) => [place]);
  const groups: number[][] = [];
  for (const place of places) groups.push(...groups.map((group) => [...group, place]), [place]);
  return groups;
}
