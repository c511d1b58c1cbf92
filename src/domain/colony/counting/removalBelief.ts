import { type CatchSums, catchSums, type PassCatches } from './catchSums.ts';

/**
 * Factor by which Carle & Strub's weighted likelihood grows from `number` animals to one more, the capture share being anything
 * from 0 to 1 with equal chance: (N+1)/(N−T+1) · Π (kN−X−T+1+k−i)/(kN−X+2+k−i), i = 1…k.
 * Source: Carle & Strub 1978, Biometrics 34: 621–630, with α = β = 1. Range: number ≥ caught.
 */
export function weightGrowth({ passes, caught, weighted }: CatchSums, number: number): number {
  const missed = passes * number - weighted - caught;
  let growth = (number + 1) / (number - caught + 1);
  for (let after = 0; after < passes; after += 1) {
    growth *= (missed + 1 + after) / (missed + caught + 2 + after);
  }
  return growth;
}

/**
 * How well a number of animals explains the catches: the logarithm of the same weighted likelihood, up to a constant of the catches.
 * For weighing the states of a model. −Infinity below what was caught; fractions of an animal are taken as they are.
 */
export function passesLogLikelihood(catches: PassCatches, number: number): number {
  const { passes, caught, weighted } = catchSums(catches);
  if (number < caught) return Number.NEGATIVE_INFINITY;
  const missed = passes * number - weighted - caught;
  let log = -Math.log(missed + caught + 1);
  for (let nth = 1; nth <= caught; nth += 1) log += Math.log((number - caught + nth) / (missed + nth));
  return log;
}

/** Weights below this share of the whole are not worth summing. */
const negligible = 1e-7;

/**
 * What is to be believed of the number of animals after the catches: weights of `from`, `from` + 1 … animals, and all that is above them.
 * Carle & Strub's weighted likelihood times a prior of 1/N, which leaves open in which order of size the number lies.
 */
function beliefOf(sums: CatchSums): { from: number; weights: readonly number[]; total: number; above: number } {
  const growth = (number: number): number => (weightGrowth(sums, number) * Math.max(number, 1)) / (number + 1);
  let mode = sums.caught;
  while (growth(mode) >= 1) mode += 1;

  const below: number[] = [];
  let weight = 1;
  let total = 1;
  for (let number = mode - 1; number >= sums.caught && weight * number > negligible * total; number -= 1) {
    weight /= growth(number);
    below.push(weight);
    total += weight;
  }

  const up = [1];
  weight = 1;
  const last = mode + 60 * sums.caught + 2000;
  for (let number = mode; weight * number > negligible * total && number < last; number += 1) {
    weight *= growth(number);
    up.push(weight);
    total += weight;
  }
  // Far out the weight falls with the square of the number, so that what is left above is weight times number.
  const end = mode + up.length - 1;
  const above = end === last ? weight * end : 0;
  return { from: mode - below.length, weights: [...below.reverse(), ...up], total: total + above, above };
}

/**
 * Quantiles of the number of animals that the catches leave to be believed, whole animals, never below the number caught.
 * @param shares ascending, 0 to 1
 */
export function removalQuantiles(sums: CatchSums, shares: readonly number[]): number[] {
  const { from, weights, total, above } = beliefOf(sums);
  const quantiles: number[] = [];
  let below = 0;
  for (const [index, weight] of weights.entries()) {
    below += weight;
    for (let next = shares[quantiles.length]; next !== undefined && below >= next * total; ) {
      quantiles.push(from + index);
      next = shares[quantiles.length];
    }
  }
  const end = from + weights.length - 1;
  const beyond = shares.slice(quantiles.length);
  return [...quantiles, ...beyond.map((share) => Math.ceil((end * above) / ((1 - share) * total)))];
}

/** What is to be believed of the number of animals: its 10 %, 50 % and 90 % quantiles. */
export function removalRange(sums: CatchSums): { low: number; median: number; high: number } {
  const [low = Number.NaN, median = Number.NaN, high = Number.NaN] = removalQuantiles(sums, [0.1, 0.5, 0.9]);
  return { low, median, high };
}
