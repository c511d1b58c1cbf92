import { spreadOf } from './spread.ts';

/** Share of the variance of `whole` that a straight line on `part` explains, 0 to 1: the square of their correlation. */
export function slopeShare(part: Float64Array, whole: Float64Array): number {
  const [of, all] = [spreadOf(part), spreadOf(whole)];
  if (of.sd === 0 || all.sd === 0) return 0;
  const products = part.reduce((sum, value, nth) => sum + (value - of.mean) * ((whole[nth] ?? 0) - all.mean), 0);
  return Math.min(1, (products / (part.length - 1) / (of.sd * all.sd)) ** 2);
}
