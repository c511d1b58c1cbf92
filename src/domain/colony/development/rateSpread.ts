/** An uncertain rate, count or time: what is likeliest to be halfway, and how far it may be off. */
export interface RateSpread {
  readonly median: number;
  /** 10 % quantile. */
  readonly low: number;
  /** 90 % quantile. */
  readonly high: number;
}

/** Distance from the median to the 10 % and the 90 % quantile of a normal distribution, in standard deviations. */
export const z90 = 1.2815515655446004;

/** `spread` in units that are `factor` times smaller; the factor is not negative. */
export const scaledSpread = ({ median, low, high }: RateSpread, factor: number): RateSpread => ({
  median: median * factor,
  low: low * factor,
  high: high * factor,
});
