import { fail, ok, type Result } from '../../result.ts';
import { carleStrub } from './carleStrub.ts';
import { catchSums, type PassCatches } from './catchSums.ts';
import { fallEvenly } from './evenPasses.ts';
import { z90 } from './normalRange.ts';
import { removalRange } from './removalBelief.ts';
import { type RemovalEstimate, seberLeCren } from './seberLeCren.ts';

/** Why removal passes tell no number of animals. `caught`: what came out in all, which is the least that is there. */
export type PassesFault =
  | { readonly kind: 'nothing-caught' | 'all-in-the-last' | 'no-decline'; readonly caught: number }
  | { readonly kind: 'weak-decline'; readonly caught: number; readonly low: number; readonly high: number };

/** Animals in a tub by removal passes. */
export interface PassesEstimate extends RemovalEstimate {
  readonly passes: number;
  readonly caught: number;
  /** Quantiles of what is to be believed, 10 %, 50 % and 90 %; whole animals, never below `caught`. */
  readonly low: number;
  readonly median: number;
  readonly high: number;
  /** The spread of a normal belief with the same 10 % and 90 %, animals; for weighing, where the standard error is too sure. */
  readonly sd: number;
  /** False where no equal effort makes catches fall like these. */
  readonly even: boolean;
}

/** A tub that may hold over four times what came out was not counted. Our choice: of two passes, a third of such numbers miss by half. */
const mostPerCaught = 4;

/**
 * Animals in a tub by removal passes: Seber–Le Cren of two, Carle–Strub of three and more.
 *
 * Low and high are quantiles of Carle & Strub's weighted likelihood with a prior of 1/N (removalBelief.ts), not N ± 1.28 SE: the normal
 * interval begins below what was caught, has no doubt after an empty pass, and where animals are few or hard to catch it holds the truth
 * more seldom than it says (95 % of it: 82 % of the time at a capture of 0.4); the profile likelihood often has no upper end there. Ours
 * errs on the wide side; tests/domain/colony/counting/coverage.test.ts prints both.
 *
 * It rests on a closed tub, equal effort, and animals that learn nothing: where those left are harder to catch, the number is too low.
 *
 * @returns a refusal where nothing was caught, all came in the last pass, Σ(k+1−2i)cᵢ is not above 0 (the catches do not decline;
 *   Seber & Whale 1970, Biometrics 26: 393–400, from memory), or the decline leaves more than four times the catch possible
 */
export function passesEstimate(catches: PassCatches): Result<PassesEstimate, PassesFault> {
  const sums = catchSums(catches);
  const { passes, caught, weighted } = sums;
  const [first = 0, second = 0] = catches;
  if (caught === 0) return fail({ kind: 'nothing-caught', caught });
  if (caught === catches.at(-1)) return fail({ kind: 'all-in-the-last', caught });
  if (2 * weighted <= (passes - 1) * caught) return fail({ kind: 'no-decline', caught });
  const { low, median, high } = removalRange(sums);
  if (high > mostPerCaught * caught) return fail({ kind: 'weak-decline', caught, low, high });
  const estimate = passes === 2 ? seberLeCren(first, second) : carleStrub(catches);
  const sd = (high - low) / (2 * z90);
  return ok({ ...estimate, passes, caught, low, median, high, sd, even: fallEvenly(catches, estimate) });
}
