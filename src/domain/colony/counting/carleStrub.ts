import { catchSums, type PassCatches } from './catchSums.ts';
import { weightGrowth } from './removalBelief.ts';
import type { RemovalEstimate } from './seberLeCren.ts';

/**
 * Any number of removal passes by the weighted likelihood: the smallest N ≥ T at which it stops growing, α = β = 1; p = T/(kN−X);
 * SE² = N(1−qᵏ)qᵏ / [(1−qᵏ)² − (pk)²qᵏ⁻¹], q = 1 − p. It gives a number even where the catches do not decline, which is then
 * the prior's more than theirs.
 * Source: Carle & Strub 1978, Biometrics 34: 621–630; variance after Zippin 1956, Biometrics 12: 163–189 (from memory).
 * Range: at least one animal caught; throws a RangeError on none.
 */
export function carleStrub(catches: PassCatches): RemovalEstimate {
  const sums = catchSums(catches);
  const { passes, caught, weighted } = sums;
  if (caught === 0) throw new RangeError('nothing was caught');
  let number = caught;
  while (weightGrowth(sums, number) >= 1) number += 1;

  const capture = caught / (passes * number - weighted);
  const missed = (1 - capture) ** passes;
  const information = (1 - missed) ** 2 - (capture * passes) ** 2 * (1 - capture) ** (passes - 1);
  return { number, standardError: Math.sqrt((number * (1 - missed) * missed) / information), capture };
}
