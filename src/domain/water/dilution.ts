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

/**
 * Fraction of one change that brings `beforeMgL` to `targetMgL`; above 1 or infinite when no change with this source can.
 * 0 when it is there already.
 */
export function fractionTo(targetMgL: number, beforeMgL: number, sourceMgL: number): number {
  if (beforeMgL <= targetMgL) return 0;
  if (sourceMgL >= targetMgL) return Number.POSITIVE_INFINITY;
  return (beforeMgL - targetMgL) / (beforeMgL - sourceMgL);
}

/** Part of the water that several changes swap together: 1 − Π(1 − f). Two of 25 % swap 44 %. */
export const swappedTogether = (fractions: readonly number[]): number =>
  1 - fractions.reduce((left, fraction) => left * (1 - fraction), 1);

/**
 * Changes of `fraction` needed, one after another without a rise between, until `beforeMgL` is at or under `targetMgL`;
 * null when the source water makes it unreachable.
 */
export function changesTo(targetMgL: number, beforeMgL: number, sourceMgL: number, fraction: number): number | null {
  if (beforeMgL <= targetMgL) return 0;
  if (sourceMgL >= targetMgL || !(fraction > 0)) return null;
  if (fraction >= 1) return 1;
  return Math.ceil(Math.log((targetMgL - sourceMgL) / (beforeMgL - sourceMgL)) / Math.log(1 - fraction) - 1e-9);
}
