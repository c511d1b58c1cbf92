/** An estimate with its 80 % interval. */
export interface Estimate {
  readonly median: number;
  /** 10 % quantile. */
  readonly low: number;
  /** 90 % quantile. */
  readonly high: number;
}

/** Quantiles of weighted values, by the place where the weight below reaches the share. */
export function quantilesOf(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  shares: readonly number[],
): number[] {
  const order = inOrder(values, weights);
  let total = 0;
  for (const index of order) total += weights[index] ?? 0;
  const found: number[] = [];
  let below = 0;
  for (const index of order) {
    below += weights[index] ?? 0;
    while (found.length < shares.length && below >= (shares[found.length] ?? 1) * total - 1e-12)
      found.push(values[index] ?? 0);
  }
  return found;
}

/** Median and 80 % interval of weighted values. */
export function estimateOf(values: ArrayLike<number>, weights: ArrayLike<number>): Estimate {
  const [low = Number.NaN, median = Number.NaN, high = Number.NaN] = quantilesOf(values, weights, [0.1, 0.5, 0.9]);
  return { median, low, high };
}

/** Places of the values that weigh anything, the least value first. */
export function inOrder(values: ArrayLike<number>, weights: ArrayLike<number>): Uint32Array {
  const places: number[] = [];
  for (let index = 0; index < values.length; index++) if ((weights[index] ?? 0) > 1e-9) places.push(index);
  return Uint32Array.from(places).sort((one, other) => (values[one] ?? 0) - (values[other] ?? 0));
}
