import type { Belief } from './infer.ts';
import { type RisePrior, risePriorDensity } from './risePrior.ts';

/** Logarithmic density of a rise under a prior, per unit of its logarithm. */
const densityOf = (risePerDay: number, { medianPerDay, logSd }: RisePrior): number =>
  risePriorDensity(Math.log(risePerDay / medianPerDay) / logSd) / logSd;

/**
 * Beliefs as they would be with another prior of the rise: each truth weighed by what the new prior gives its rise over what the old one
 * gave. Saves inferring anew whenever another tub of the rack was read.
 *
 *   w' ∝ w · p_new(g) / p_old(g)
 *
 * @param old the prior that the beliefs were inferred with; wider than `prior`
 * Error: that of a few hundred truths, under a fifth of the range; two fifths after a jump, as what the new prior makes odd is not looked at anew.
 */
export function withRisePrior(beliefs: readonly Belief[], old: RisePrior, prior: RisePrior): Belief[] {
  const raw = beliefs.map(({ risePerDay, weight }) =>
    risePerDay > 0 ? (weight * densityOf(risePerDay, prior)) / densityOf(risePerDay, old) : weight,
  );
  const total = raw.reduce((sum, weight) => sum + weight, 0);
  return beliefs.map((belief, index) => ({ ...belief, weight: (raw[index] ?? 0) / total }));
}
