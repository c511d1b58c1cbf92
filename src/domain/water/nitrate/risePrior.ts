import { type Estimate, quantilesOf } from './estimate.ts';
import { normalDensity } from './normal.ts';

/** What is believed of a tub's rise before its own readings speak: about log-normal, as rises are positive and differ by factors. */
export interface RisePrior {
  /** mg/L a day, above 0. */
  readonly medianPerDay: number;
  /** Standard deviation of the natural logarithm. */
  readonly logSd: number;
}

/**
 * A rack that nothing is known of: 2 mg/L a week, four tubs of five between 0.75 and 6. Lightly stocked air-driven tubs rise 0 to 5 mg/L
 * a week, overfed ones 5 to 15 (common practice, no source).
 */
export const widePrior: RisePrior = { medianPerDay: 0.3, logSd: 0.8 };

/** Share and width, in standard deviations, of the wide part of a rise's prior: one odd tub in ten. */
const oddShare = 0.1;
const oddSd = 2;

/** Density of the logarithm of a rise, `z` standard deviations from that of the median. */
export const risePriorDensity = (z: number): number =>
  (1 - oddShare) * normalDensity(z, 0, 1) + oddShare * normalDensity(z, 0, oddSd);

/** Steps to which a prior is rounded, of the logarithms: far finer than it is known. */
const priorSteps = 20;

/** A prior as near as it matters, so that one more reading of a neighbour leaves most as they were; the wide one as it is. */
export function roundedPrior({ medianPerDay, logSd }: RisePrior): RisePrior {
  const rounded = (value: number): number => Math.round(value * priorSteps) / priorSteps;
  return {
    medianPerDay: widePrior.medianPerDay * Math.exp(rounded(Math.log(medianPerDay / widePrior.medianPerDay))),
    logSd: rounded(logSd),
  };
}

/** Tubs' worth of the wide prior that the other tubs have to outweigh (assumption). */
const widePriorTubs = 4;
/** Tubs of one rack differ at least this much (standard deviation of the logarithm; assumption). */
const leastLogSd = 0.35;
/** A rise at or near zero has no logarithm worth taking: it counts as this, mg/L a day. */
const leastPerDay = 0.02;
/** Half the width of a normal 80 % interval, in standard deviations. */
const z90 = 1.2815515655446004;
/** Standard deviation over median absolute deviation of a normal distribution. */
const sdPerMad = 1.4826022185056018;

/**
 * The prior of a tub from the other tubs of the rack. Each counts by how much its own readings have said; the centre is their weighted
 * median and the spread their weighted median deviation, so that one odd tub moves neither far; with few tubs the wide prior still speaks.
 *
 * @param rises rise of each other tub with its 80 % interval, mg/L a day, as inferred with `widePrior`
 */
export function risePriorOf(rises: readonly Estimate[]): RisePrior {
  const wideVar = widePrior.logSd ** 2;
  const tubs = rises.flatMap((rise) => {
    const [low, median, high] = [rise.low, rise.median, rise.high].map((value) =>
      Math.log(Math.max(leastPerDay, value)),
    );
    if (low === undefined || median === undefined || high === undefined || Number.isNaN(median)) return [];
    const ownVar = ((high - low) / (2 * z90)) ** 2;
    const weight = Math.min(1, Math.max(0, 1 - ownVar / wideVar));
    return weight > 0 ? [{ log: median, ownVar, weight }] : [];
  });
  const told = tubs.reduce((sum, { weight }) => sum + weight, 0);
  if (told <= 0) return widePrior;
  const weights = tubs.map(({ weight }) => weight);
  const middle = (values: readonly number[]): number => quantilesOf(values, weights, [0.5])[0] ?? 0;
  const centre = middle(tubs.map(({ log }) => log));
  const deviation = sdPerMad * middle(tubs.map(({ log }) => Math.abs(log - centre)));
  const blurVar = middle(tubs.map(({ ownVar }) => ownVar));
  const wideCentre = Math.log(widePrior.medianPerDay);
  const share = told / (told + widePriorTubs);
  const mixed = share * centre + (1 - share) * wideCentre;
  const spread = share * (deviation ** 2 + blurVar) + (1 - share) * wideVar;
  const pulled = (mixed - centre) ** 2;
  return { medianPerDay: Math.exp(mixed), logSd: Math.max(leastLogSd, Math.sqrt(spread + pulled)) };
}
