import { cloudOf } from './cloud.ts';
import { type Estimate, estimateOf, inOrder } from './estimate.ts';
import { eventsInWindow, type TubEvent } from './event.ts';
import { type RisePrior, widePrior } from './risePrior.ts';
import { weightsOf } from './walk.ts';

/** One possible truth of a tub with its weight; all weights of a belief sum to 1. */
export interface Belief {
  readonly nowMgL: number;
  readonly risePerDay: number;
  readonly weight: number;
}

export interface NitrateEstimate {
  /** Nitrate now, mg/L as NO3. */
  readonly nowMgL: Estimate;
  /** Rise, mg/L a day; not above zero where plants take up more than is fed. */
  readonly risePerDay: Estimate;
  /** Readings of the window that the estimate rests on; 0: the prior alone. */
  readonly readings: number;
  /** Chance of the newest reading given those before it, by a blunt look; 1 where there is nothing to judge it by. */
  readonly newestChance: number;
  /** For the planner, by rising nitrate. */
  readonly beliefs: readonly Belief[];
}

/** Truths that stand for all in the planner. */
const beliefCount = 400;

/**
 * Nitrate now and its rise from interval readings, logged changes and top-ups: Bayes over the start, the rise and its drift, with the
 * eye's steadiness and slips left open. Where a reading does not follow from those before it, that the tub began anew there (something
 * not logged) is weighed against a slip by what each makes of the readings.
 *
 * @param events    the tub's events in any order; those outside the last 120 days are left out
 * @param nowDay    the moment of the estimate, in the same days
 * @param sourceMgL nitrate of the source water, mg/L
 * @param kitStepsMgL steps of the kit, ascending
 * @param prior     from the other tubs (`risePriorOf`), or `widePrior`
 */
export function inferNitrate(
  events: readonly TubEvent[],
  nowDay: number,
  sourceMgL: number,
  kitStepsMgL: readonly number[],
  prior: RisePrior = widePrior,
): NitrateEstimate {
  const used = eventsInWindow(events, nowDay);
  const { levelMgL, risePerDay, weights, newestChance } = cloudOf(used, nowDay, { sourceMgL, kitStepsMgL, prior });
  const beliefs = thinned(levelMgL, risePerDay, weightsOf(weights));
  return estimateFrom(beliefs, used.filter(({ of }) => of === 'reading').length, newestChance);
}

/** What beliefs say of nitrate and its rise. */
export function estimateFrom(beliefs: readonly Belief[], readings: number, newestChance = 1): NitrateEstimate {
  const weights = beliefs.map(({ weight }) => weight);
  const quantities = (of: (belief: Belief) => number): Estimate => estimateOf(beliefs.map(of), weights);
  return {
    nowMgL: quantities(({ nowMgL }) => nowMgL),
    risePerDay: quantities(({ risePerDay }) => risePerDay),
    readings,
    newestChance,
    beliefs,
  };
}

/** A few hundred truths of equal weight that stand for all, taken at even steps through the weight. */
function thinned(levels: Float64Array, rises: Float64Array, weights: Float64Array): Belief[] {
  const order = inOrder(levels, weights);
  let total = 0;
  for (const index of order) total += weights[index] ?? 0;
  const beliefs: Belief[] = [];
  let below = 0;
  for (const index of order) {
    below += (weights[index] ?? 0) / total;
    while (beliefs.length < beliefCount && below >= (beliefs.length + 0.5) / beliefCount - 1e-12) {
      beliefs.push({ nowMgL: levels[index] ?? 0, risePerDay: rises[index] ?? 0, weight: 1 / beliefCount });
    }
  }
  return beliefs;
}
