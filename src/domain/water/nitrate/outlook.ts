import { afterChange } from '../dilution.ts';
import { type Estimate, estimateOf, quantilesOf } from './estimate.ts';
import type { Belief } from './infer.ts';

/** What the beliefs say of a tub's days to come. The rise of each belief is taken to last. */

/** The beliefs some days later, nothing done; nitrate does not fall below zero. */
export const later = (beliefs: readonly Belief[], days: number): Belief[] =>
  beliefs.map((belief) => ({ ...belief, nowMgL: Math.max(0, belief.nowMgL + belief.risePerDay * days) }));

/** The beliefs after a change of `fraction`, 0 to 1. */
export const changedBy = (beliefs: readonly Belief[], fraction: number, sourceMgL: number): Belief[] =>
  beliefs.map((belief) => ({ ...belief, nowMgL: afterChange(belief.nowMgL, fraction, sourceMgL) }));

/** Chance that nitrate is at or under `limitMgL` after a change of `fraction` (0: none) and for `days` to come. */
export function chanceUnder(
  beliefs: readonly Belief[],
  limitMgL: number,
  days: number,
  fraction = 0,
  sourceMgL = 0,
): number {
  let chance = 0;
  for (const { nowMgL, risePerDay, weight } of beliefs) {
    const afterMgL = afterChange(nowMgL, fraction, sourceMgL);
    if (afterMgL + Math.max(0, risePerDay) * days <= limitMgL) chance += weight;
  }
  return chance;
}

const weightsOf = (beliefs: readonly Belief[]): number[] => beliefs.map(({ weight }) => weight);

export const nitrateOf = (beliefs: readonly Belief[]): Estimate =>
  estimateOf(
    beliefs.map(({ nowMgL }) => nowMgL),
    weightsOf(beliefs),
  );

/** Quantiles of the rise, mg/L a day. */
export const risesOf = (beliefs: readonly Belief[], shares: readonly number[]): number[] =>
  quantilesOf(
    beliefs.map(({ risePerDay }) => risePerDay),
    weightsOf(beliefs),
    shares,
  );

/** Days until nitrate passes the limit, nothing done; null: not while things are as they are. */
export interface DaysToLimit {
  readonly median: number | null;
  /** One tub in ten of those that look alike is there by then. */
  readonly soonest: number | null;
}

export function daysToLimit(beliefs: readonly Belief[], limitMgL: number): DaysToLimit {
  const days = beliefs.map(({ nowMgL, risePerDay }) => {
    if (nowMgL > limitMgL) return 0;
    return risePerDay > 0 ? (limitMgL - nowMgL) / risePerDay : Number.MAX_VALUE;
  });
  const [soonest = 0, median = 0] = quantilesOf(days, weightsOf(beliefs), [0.1, 0.5]);
  // Beyond ten years nothing is as it is: the figure would be a rise that cannot be told from none.
  const known = (value: number): number | null => (value > 3650 ? null : value);
  return { median: known(median), soonest: known(soonest) };
}

/**
 * Nitrate just before each change once the same change has been made for long: N_source + g·T/f.
 *
 * Source: the geometric series of c' = (c + a)(1 − f) + f·c_in with a = g·T (elementary algebra; tests/published/waterChange.csv).
 */
export const plateauMgL = (sourceMgL: number, risePerDay: number, intervalDays: number, fraction: number): number =>
  sourceMgL + (Math.max(0, risePerDay) * intervalDays) / fraction;
