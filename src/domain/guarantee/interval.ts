/** Standard normal quantile of a two-sided 95 % interval. */
const z95 = 1.959963984540054;

/** Bounds of a proportion, 0 to 1. */
export interface ProportionInterval {
  readonly low: number;
  readonly high: number;
}

/**
 * Wilson's score interval, 95 %, of a proportion seen `successes` times in `trials`: honest for small numbers and near 0 and
 * 1; nothing seen yet gives 0 to 1. Formula: NIST/SEMATECH e-Handbook 7.2.4.1. Checked against the printed output of the
 * FSA package and rows of Newcombe 1998 (tests/published/wilsonIntervals.csv) to the digits given.
 */
export function wilsonInterval(successes: number, trials: number): ProportionInterval {
  if (trials === 0) return { low: 0, high: 1 };
  const seen = successes / trials;
  const z2 = z95 ** 2;
  const centre = (seen + z2 / (2 * trials)) / (1 + z2 / trials);
  const half = (z95 * Math.sqrt((seen * (1 - seen)) / trials + z2 / (4 * trials ** 2))) / (1 + z2 / trials);
  return {
    low: successes === 0 ? 0 : Math.max(0, centre - half),
    high: successes === trials ? 1 : Math.min(1, centre + half),
  };
}
