import { broodBoxes, broods, females, males } from './layout.ts';

/** A tub on its way into the future. */
export interface TubAhead {
  readonly numbers: Float32Array;
  /** Tubs that it stands for, itself included. */
  readonly weight: number;
}

/** A line on its way into the future. */
export interface LineAhead {
  readonly members: number;
  readonly tubs: readonly TubAhead[];
}

/** Sum over a line's tubs of what `of` makes of a tub's saleable animals, by member. */
export function sumAhead({ tubs, members }: LineAhead, of: (saleable: number) => number): Float64Array {
  const [femaleRow, maleRow] = [females * members, males * members];
  const sum = new Float64Array(members);
  for (const { numbers, weight } of tubs) {
    for (let member = 0; member < members; member++) {
      const saleable = (numbers[femaleRow + member] ?? 0) + (numbers[maleRow + member] ?? 0);
      sum[member] = (sum[member] ?? 0) + weight * of(saleable);
    }
  }
  return sum;
}

/** What a line has over its breeders, by member. */
export const spareAhead = (line: LineAhead, holdBack: number): Float64Array =>
  sumAhead(line, (saleable) => (saleable > holdBack ? saleable - holdBack : 0));

/**
 * Takes animals from a line's tubs, in place: from each the same share of what it has over its breeders, sexes as they are.
 *
 * @param wanted  animals, by member
 * @param missing grows by what was not there, by member
 */
export function sellAhead(line: LineAhead, wanted: Float64Array, holdBack: number, missing: Float64Array): void {
  const { tubs, members } = line;
  const [femaleRow, maleRow, firstRow] = [females * members, males * members, broods * members];
  const lastRow = firstRow + (broodBoxes + 1) * members;
  const shares = spareAhead(line, holdBack).map((spare, member) => {
    const number = wanted[member] ?? 0;
    missing[member] = (missing[member] ?? 0) + Math.max(0, number - spare);
    return spare > 0 ? Math.min(1, number / spare) : 0;
  });
  for (const { numbers } of tubs) {
    for (let member = 0; member < members; member++) {
      const share = shares[member] ?? 0;
      const grown = (numbers[femaleRow + member] ?? 0) + (numbers[maleRow + member] ?? 0);
      if (share === 0 || grown <= holdBack) continue;
      const kept = 1 - (share * (grown - holdBack)) / grown;
      for (let row = firstRow; row <= lastRow; row += members) {
        numbers[row + member] = (numbers[row + member] ?? 0) * kept;
      }
    }
  }
}
