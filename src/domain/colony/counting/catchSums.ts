/** What each removal pass caught, in order; whole animals, two passes or more, each with the same effort and without putting any back. */
export type PassCatches = readonly number[];

/** What estimators need of the catches. */
export interface CatchSums {
  /** k, number of passes. */
  readonly passes: number;
  /** T = Σ cᵢ, animals caught in all. */
  readonly caught: number;
  /** X = Σ (k − i)·cᵢ, catches weighted by the passes that followed. */
  readonly weighted: number;
}

/** Throws a RangeError on fewer than two passes, or on catches that are no whole numbers from 0 up: both are bugs. */
export function catchSums(catches: PassCatches): CatchSums {
  if (catches.length < 2 || catches.some((caught) => !Number.isInteger(caught) || caught < 0)) {
    throw new RangeError(`no catches of removal passes: ${catches.join(', ')}`);
  }
  const passes = catches.length;
  return {
    passes,
    caught: catches.reduce((sum, caught) => sum + caught, 0),
    weighted: catches.reduce((sum, caught, index) => sum + (passes - 1 - index) * caught, 0),
  };
}
