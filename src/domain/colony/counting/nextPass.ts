import { catchSums, type PassCatches } from './catchSums.ts';
import type { PassesEstimate } from './passesEstimate.ts';
import { removalRange } from './removalBelief.ts';

/** What one more pass of the same effort can be expected to give. */
export interface NextPass {
  /** Animals that it would catch, whole. */
  readonly catch: number;
  /** What would then be believed if it catches just that: 10 % and 90 %. */
  readonly low: number;
  readonly high: number;
  /** Whether the range is worth narrowing and would be. Our choice: wider than 15 % of the number, and a quarter narrower after. */
  readonly helps: boolean;
}

/** p·(N−T) animals, and what follows from them. */
export function nextPass(catches: PassCatches, estimate: PassesEstimate): NextPass {
  const caughtNext = Math.round(estimate.capture * (estimate.number - estimate.caught));
  const { low, high } = removalRange(catchSums([...catches, caughtNext]));
  const width = estimate.high - estimate.low;
  const helps = width > 0.15 * estimate.number && high - low <= 0.75 * width;
  return { catch: caughtNext, low, high, helps };
}
