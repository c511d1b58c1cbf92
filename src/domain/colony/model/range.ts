/** An estimate: what is likeliest halfway, and its 80 % range. */
export interface Range {
  /** 10 % quantile. */
  readonly low: number;
  readonly median: number;
  /** 90 % quantile. */
  readonly high: number;
}

/** The quantiles of some values at ascending shares from 0 to 1, straight lines between their ranks' middles. */
export function quantilesOf(values: ArrayLike<number>, shares: readonly number[]): number[] {
  const sorted = Float64Array.from(values).sort();
  const last = sorted.length - 1;
  return shares.map((share) => {
    const place = Math.min(last, Math.max(0, share * sorted.length - 0.5));
    const [from, to] = [sorted[Math.floor(place)] ?? 0, sorted[Math.ceil(place)] ?? 0];
    return from + (to - from) * (place - Math.floor(place));
  });
}

/** 80 % range of animals over the members, whole animals. */
export function rangeOf(animals: ArrayLike<number>): Range {
  const [low = 0, median = 0, high = 0] = quantilesOf(animals, [0.1, 0.5, 0.9]).map(Math.round);
  return { low, median, high };
}
