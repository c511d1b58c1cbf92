import { fail, ok, type Result } from '../../result.ts';
import { z90 } from './normalRange.ts';

/** A count at the feeding dish, and how many the tub held then by a full count; animals. */
export interface DishPair {
  readonly seen: number;
  readonly full: number;
}

/** What is believed of how many animals one that is seen at the dish stands for. */
export interface DishRatio {
  /** Median of animals in the tub for each one seen, over 0. */
  readonly ratio: number;
  /** Standard deviation of the logarithm of that ratio: doubt about the tub's usual share. */
  readonly ratioLogSd: number;
  /** Standard deviation of the logarithm by which one evening differs from the next, beyond the chance of who comes. */
  readonly eveningLogSd: number;
  /** How many pairs the belief in `eveningLogSd` is worth. */
  readonly eveningPairs: number;
  /** Pairs that it rests on beside the prior. */
  readonly pairs: number;
}

/**
 * Without a pair: one seen stands for 2.5 animals, for 1.25 to 5 from 10 % to 90 %; evenings differ by a third, as sure as four pairs
 * would make it. Common practice, no source.
 */
export const dishPrior: DishRatio = {
  ratio: 2.5,
  ratioLogSd: Math.LN2 / z90,
  eveningLogSd: 0.33,
  eveningPairs: 4,
  pairs: 0,
};

/** Standard deviation of the logarithm by which tubs of one line differ in their usual share. Common practice, no source. */
const tubLogSd = 0.2;

/**
 * Ratio estimator R = Σ full / Σ seen, and its variance Var(R) = Σ(full − R·seen)² / ((n−1)·n·mean(seen)²), no limit of the population.
 * Source: Cochran 1977, Sampling Techniques, 3rd ed., ch. 6 (from memory).
 * @returns null where nothing was seen or nothing was there; the variance is null of a single pair
 */
export function ratioEstimate(
  pairs: readonly DishPair[],
): { readonly ratio: number; readonly variance: number | null; readonly meanSeen: number } | null {
  const seen = pairs.reduce((sum, pair) => sum + pair.seen, 0);
  const full = pairs.reduce((sum, pair) => sum + pair.full, 0);
  if (seen === 0 || full === 0) return null;
  const ratio = full / seen;
  const meanSeen = seen / pairs.length;
  const off = pairs.reduce((sum, pair) => sum + (pair.full - ratio * pair.seen) ** 2, 0);
  const variance = pairs.length === 1 ? null : off / ((pairs.length - 1) * pairs.length * meanSeen ** 2);
  return { ratio, variance, meanSeen };
}

/**
 * The ratio of a tub or a line by its pairs, shrunk to a prior while they are few: both in logarithms, weighted by the inverse of their
 * variances; how much evenings differ is pooled with the prior's. Pairs of an empty tub tell nothing and are left out.
 * @param prior `dishPrior`, or the ratio of the line by `asTubPrior`
 */
export function dishRatio(pairs: readonly DishPair[], prior: DishRatio = dishPrior): DishRatio {
  const told = pairs.filter(({ full }) => full > 0);
  const estimate = ratioEstimate(told);
  if (estimate === null) return prior;
  const { ratio, variance, meanSeen } = estimate;
  const n = told.length;
  const chance = chanceOfWhoComes(ratio, meanSeen);
  const ofOneEvening = variance === null ? 0 : Math.max(0, (n * variance) / ratio ** 2 - chance);
  const eveningPairs = prior.eveningPairs + n - 1;
  const evening = (prior.eveningPairs * prior.eveningLogSd ** 2 + (n - 1) * ofOneEvening) / eveningPairs;
  const weight = n / (evening + chance);
  const priorWeight = 1 / prior.ratioLogSd ** 2;
  const log = (weight * Math.log(ratio) + priorWeight * Math.log(prior.ratio)) / (weight + priorWeight);
  return {
    ratio: Math.exp(log),
    ratioLogSd: 1 / Math.sqrt(weight + priorWeight),
    eveningLogSd: Math.sqrt(evening),
    eveningPairs,
    pairs: prior.pairs + n,
  };
}

/** The ratio of a line as the prior of one of its tubs, which differs from the others. */
export const asTubPrior = (line: DishRatio): DishRatio => ({
  ...line,
  ratioLogSd: Math.hypot(line.ratioLogSd, tubLogSd),
});

/** Relative variance of a number seen because each animal comes or stays away by itself: (1−share)/seen. */
const chanceOfWhoComes = (ratio: number, seen: number): number => Math.max(0, 1 - 1 / ratio) / seen;

/** Animals in a tub by a count at its dish. */
export interface DishEstimate {
  /** Quantiles, 50 %, 10 % and 90 %; animals, never below what was seen. */
  readonly median: number;
  readonly low: number;
  readonly high: number;
  /** Standard deviation of the logarithm of the number. */
  readonly logSd: number;
}

/** None at the dish: they may all be hiding, so that no ratio applies. */
export interface DishFault {
  readonly kind: 'none-seen';
}

/**
 * Animals in the tub for `seen` at the dish, log-normal with the variances of the ratio, of the evening and of who comes added up.
 * @param seen whole animals, 0 and up
 */
export function dishEstimate(belief: DishRatio, seen: number): Result<DishEstimate, DishFault> {
  if (!Number.isInteger(seen) || seen < 0) throw new RangeError(`${seen} animals seen`);
  if (seen === 0) return fail({ kind: 'none-seen' });
  const { ratio, ratioLogSd, eveningLogSd } = belief;
  const logSd = Math.sqrt(ratioLogSd ** 2 + eveningLogSd ** 2 + chanceOfWhoComes(ratio, seen));
  const at = (z: number): number => Math.max(seen, seen * ratio * Math.exp(z * logSd));
  return ok({ median: at(0), low: at(-z90), high: at(z90), logSd });
}
