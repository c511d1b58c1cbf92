import type { PassCatches } from './catchSums.ts';
import type { RemovalEstimate } from './seberLeCren.ts';

/** Standard normal quantile of 99 %. */
const z99 = 2.3263478740408408;

/** Less is not divided by: where next to nothing is expected, one animal is no news yet. */
const fewestExpected = 0.5;

/**
 * Whether the catches fall as evenly as passes of the same effort let them fall: Σ(cᵢ−Eᵢ)²/Eᵢ with Eᵢ = Npqⁱ⁻¹, divided by half an
 * animal at least, below the 99 % point of χ² with k−2 degrees of freedom. Two passes always fit.
 * Source: the test of Zippin 1956, Biometrics 12: 163–189, and the point by Wilson & Hilferty 1931 (both from memory).
 */
export function fallEvenly(catches: PassCatches, { number, capture }: RemovalEstimate): boolean {
  const freedom = catches.length - 2;
  if (freedom === 0) return true;
  const chiSquare = catches.reduce((sum, caught, index) => {
    const expected = number * capture * (1 - capture) ** index;
    return sum + (caught - expected) ** 2 / Math.max(expected, fewestExpected);
  }, 0);
  const share = 2 / (9 * freedom);
  return chiSquare <= freedom * (1 - share + z99 * Math.sqrt(share)) ** 3;
}
