/**
 * Concentration after a change of fraction f with source water.
 *
 *   c⁺ = (1 − f)·c⁻ + f·c_source
 *
 * @param beforeMgL  in the tub, mg/L (or any additive scale: °C, °dGH, TDS)
 * @param fraction   of the net volume that is swapped, 0 to 1
 * @param sourceMgL  in the source water
 * Source: mass balance.
 */
export const afterChange = (beforeMgL: number, fraction: number, sourceMgL: number): number =>
  (1 - fraction) * beforeMgL + fraction * sourceMgL;

/** What was there before a change, by what is there after it; null after a change of all. The way back of `afterChange`. */
export const beforeChange = (afterMgL: number, fraction: number, sourceMgL: number): number | null =>
  fraction >= 1 ? null : Math.max(0, (afterMgL - fraction * sourceMgL) / (1 - fraction));

/** Part of the water that several changes swap together: 1 − Π(1 − f). Two of 25 % swap 44 %. */
export const swappedTogether = (fractions: readonly number[]): number =>
  1 - fractions.reduce((left, fraction) => left * (1 - fraction), 1);
