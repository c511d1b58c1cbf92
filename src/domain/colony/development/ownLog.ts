import { middleOf } from '../middle.ts';
import { type RateSpread, z90 } from './rateSpread.ts';

/**
 * How far single broods or batches of one couple stray from their own mean, as a standard deviation of the logarithm (assumption: a fifth,
 * which also holds a day or two of dating).
 */
const strayLogSd = 0.2;
/** This many of those off, an observation counts half, so that one wrong date moves little. */
const halfSds = 2;

/**
 * A published spread corrected by what the couple's own log says. Each observation is a logged value over the median that was expected for
 * it, e.g. days a brood was carried over `incubationDays` at its temperature; the spread is that of the factor, e.g. `eggDaysFactor`, or any
 * spread whose median the observations are divided by, scaled back by the caller.
 *
 *   y = ln(observed), m = (m₀/s₀² + Σ w·y/s²) / (1/s₀² + Σ w/s²)        s = 0.2; w = 1/(1 + ((y − m)/2s)²)
 *
 * @param spread    over 0; no observation returns it as it is
 * @param observed  logged over expected, over 0; others are passed over
 * Source: normal prior and normal observations in the logarithm, the mean by weights that fall with the distance (from memory); the 0.2
 * is assumed.
 */
export function correctedByLog(spread: RateSpread, observed: readonly number[]): RateSpread {
  const logs = observed.filter((value) => value > 0 && Number.isFinite(value)).map(Math.log);
  if (logs.length === 0) return spread;
  const prior = Math.log(spread.median);
  const priorVar = (Math.log(spread.high / spread.low) / (2 * z90)) ** 2;
  const strayVar = strayLogSd ** 2;
  let mean = middleOf(logs);
  let precision = 1 / priorVar;
  for (let round = 0; round < 30; round++) {
    const centre = mean;
    const weights = logs.map((y) => 1 / (1 + ((y - centre) / (halfSds * strayLogSd)) ** 2));
    precision = 1 / priorVar + weights.reduce((sum, weight) => sum + weight / strayVar, 0);
    mean = logs.reduce((sum, y, at) => sum + ((weights[at] ?? 0) * y) / strayVar, prior / priorVar) / precision;
  }
  const median = Math.exp(mean);
  const narrowed = 1 / Math.sqrt(precision * priorVar);
  return {
    median,
    low: median * (spread.low / spread.median) ** narrowed,
    high: median * (spread.high / spread.median) ** narrowed,
  };
}
