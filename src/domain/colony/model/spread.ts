/** Mean and standard deviation of some values. */
export interface Spread {
  readonly mean: number;
  readonly sd: number;
}

/** Mean and standard deviation (n − 1) of two values or more. */
export function spreadOf(values: ArrayLike<number>): Spread {
  const count = values.length;
  let sum = 0;
  for (let nth = 0; nth < count; nth++) sum += values[nth] ?? 0;
  const mean = sum / count;
  let squares = 0;
  for (let nth = 0; nth < count; nth++) squares += ((values[nth] ?? 0) - mean) ** 2;
  return { mean, sd: Math.sqrt(squares / (count - 1)) };
}
