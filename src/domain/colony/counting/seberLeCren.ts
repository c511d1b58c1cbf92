import { type CatchSums, catchSums } from './catchSums.ts';

/** A number of animals as a published estimator gives it; not rounded. */
export interface RemovalEstimate {
  /** N, animals that were in the tub before the first pass. */
  readonly number: number;
  /** Standard error of N by the published variance, animals; 0 where the last passes were empty, which is too sure. */
  readonly standardError: number;
  /** p, the share of those still there that one pass catches, 0 to 1. */
  readonly capture: number;
}

/**
 * Two removal passes: N = c₁²/(c₁−c₂), p = 1 − c₂/c₁, Var(N) = c₁²c₂²(c₁+c₂)/(c₁−c₂)⁴.
 * Source: Seber & Le Cren 1967, J. Anim. Ecol. 36: 631–643; Seber 2002, The Estimation of Animal Abundance, p. 312,
 * eq. 7.30–7.31. Range: c₁ > c₂ ≥ 0; throws a RangeError outside it.
 */
export function seberLeCren(first: number, second: number): RemovalEstimate {
  const { caught }: CatchSums = catchSums([first, second]);
  const decline = first - second;
  if (decline <= 0) throw new RangeError(`no decline from ${first} to ${second}`);
  return {
    number: first ** 2 / decline,
    standardError: (first * second * Math.sqrt(caught)) / decline ** 2,
    capture: 1 - second / first,
  };
}
