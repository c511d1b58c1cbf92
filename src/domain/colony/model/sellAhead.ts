import type { LineAhead } from './ahead.ts';
import { broodBoxes, broods, females, males } from './layout.ts';

/** Saleable animals of a member, in a state of `members` members. */
export const grownAhead = (numbers: Float32Array, members: number, member: number): number =>
  (numbers[females * members + member] ?? 0) + (numbers[males * members + member] ?? 0);

/** What a line has over its breeders in each member. */
export function spareAhead({ tubs, members }: LineAhead, holdBack: number): Float64Array {
  const spare = new Float64Array(members);
  for (const { numbers } of tubs) {
    for (let member = 0; member < members; member++) {
      spare[member] = (spare[member] ?? 0) + Math.max(0, grownAhead(numbers, members, member) - holdBack);
    }
  }
  return spare;
}

/**
 * Takes `number` animals from a line's tubs in every member, in place: from each tub the same share of what it has over its breeders, sexes as they
 * are.
 *
 * @returns how many were missing, by member
 */
export function sellAhead(line: LineAhead, number: number, holdBack: number): Float64Array {
  const { tubs, members } = line;
  const spare = spareAhead(line, holdBack);
  for (const { numbers } of tubs) {
    for (let member = 0; member < members; member++) {
      const there = spare[member] ?? 0;
      const grown = grownAhead(numbers, members, member);
      if (there <= 0 || grown <= holdBack) continue;
      const kept = 1 - ((grown - holdBack) * Math.min(1, number / there)) / grown;
      for (let row = broods; row < broods + broodBoxes + 2; row++) {
        numbers[row * members + member] = (numbers[row * members + member] ?? 0) * kept;
      }
    }
  }
  return spare.map((there) => Math.max(0, number - there));
}
