/**
 * Splits an amount into whole parts in proportion to weights, so that the parts add up to it: each gets its share rounded down, and the
 * units left over go one each to the largest remainders, the earlier first where two are alike. No part is more than its share rounded up.
 * Source: the method of largest remainders (Hamilton's) for apportionment, from memory.
 * @param minor whole minor units, any sign
 * @param weights whole numbers, 0 and up; where all are 0 the parts are as equal as they can be
 * @throws RangeError where there is nothing to split it among, or an argument is not whole
 */
export function splitMinor(minor: number, weights: readonly number[]): number[] {
  if (!Number.isSafeInteger(minor)) throw new RangeError(`not whole minor units: ${minor}`);
  if (weights.some((weight) => !Number.isSafeInteger(weight) || weight < 0)) {
    throw new RangeError(`not whole weights: ${weights.join(', ')}`);
  }
  if (weights.length === 0) {
    if (minor === 0) return [];
    throw new RangeError(`${minor} cannot be split among nobody`);
  }
  const isEven = weights.every((weight) => weight === 0);
  // A product of two amounts may be more than a number holds exactly.
  const shares = weights.map((weight) => BigInt(isEven ? 1 : weight));
  const whole = shares.reduce((sum, share) => sum + share, 0n);
  const amount = BigInt(Math.abs(minor));
  const parts = shares.map((share) => Number((amount * share) / whole));
  const left = Math.abs(minor) - parts.reduce((sum, part) => sum + part, 0);
  const byRemainder = shares
    .map((share, index) => ({ index, remainder: (amount * share) % whole }))
    .sort((a, b) => (a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1));
  const oneMore = new Set(byRemainder.slice(0, left).map(({ index }) => index));
  return parts.map((part, index) => signed(part + (oneMore.has(index) ? 1 : 0), minor));
}

/** Without a negative zero. */
const signed = (part: number, as: number): number => (as < 0 && part !== 0 ? -part : part);
