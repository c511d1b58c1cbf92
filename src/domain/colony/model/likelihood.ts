import { catchSums, type PassCatches } from '../counting/catchSums.ts';
import { passesLogLikelihood, removalRange } from '../counting/removalBelief.ts';
import { z90 } from '../development/rateSpread.ts';

/** Added to a number of animals before its logarithm is taken: none has one too, and one more or less counts at the bottom. */
const half = 0.5;
/** The scale on which numbers of animals are compared. */
export const logNumber = (animals: number): number => Math.log(animals + half);
/** Back from `logNumber`, never below 0. */
export const animalsAt = (log: number): number => Math.max(0, Math.exp(log) - half);

/** How well possible values of a quantity explain what was seen. */
export interface Likelihood {
  /** Log-likelihood where the quantity is `y`, up to a constant. */
  readonly log: (y: number) => number;
  /** Where it is highest. */
  readonly centre: number;
  /** Standard deviation about there. */
  readonly sd: number;
}

/** How a way of counting errs. */
export interface CountError {
  /** Standard deviation of the logarithm from one time to the next. */
  readonly logSd: number;
  /** Share of the animals that it finds, for how much chance decides who is among them. */
  readonly finds: number;
}

/** Freedom of Student's t: counts slip now and then. */
const freedom = 4;

/**
 * A count of `seen` animals where `logNumber` of those expected to be seen is y: Student's t about ln(seen + ½) with the variance
 * logSd² + (1 − finds)/expected, chance (binomial) added to the eye's error.
 */
export function countLikelihood(seen: number, { logSd, finds }: CountError): Likelihood {
  const centre = logNumber(seen);
  const sdAt = (y: number): number => Math.sqrt(logSd * logSd + (1.01 - finds) / (Math.exp(y) + half / 2));
  return {
    log: (y) => {
      const sd = sdAt(y);
      return -Math.log(sd) - ((freedom + 1) / 2) * Math.log(1 + ((centre - y) / sd) ** 2 / freedom);
    },
    centre,
    sd: sdAt(centre),
  };
}

/** Weight of removal passes against what they claim: efforts are never quite equal (assumption). */
const passesWeight = 0.7;

/** Removal passes, where y is `logNumber` of the animals in the tub; fewer than were caught is all but ruled out. */
export function passesLikelihood(catches: PassCatches): Likelihood {
  const sums = catchSums(catches);
  const { low, median, high } = removalRange(sums);
  const atLeast = least(sums.caught);
  return {
    log: (y) => passesWeight * passesLogLikelihood(catches, Math.max(sums.caught, animalsAt(y))) + atLeast.log(y),
    centre: logNumber(median),
    sd: Math.max(0.04, (logNumber(high) - logNumber(low)) / (2 * z90)),
  };
}

/** So many were in hand: the tub held that many or more, one over the other hardly fewer. */
export function least(number: number): Likelihood {
  const centre = logNumber(number);
  const sd = 0.02 + 0.3 / (number + 1);
  return { log: (y) => (y >= centre ? 0 : -0.5 * ((y - centre) / sd) ** 2), centre, sd };
}
