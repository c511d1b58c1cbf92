import type { Instant, LocalDay } from '../day.ts';
import type { CountMethod, Stage, Tub } from '../tub.ts';
import type { DishEstimate } from './counting/dishRatio.ts';
import type { NextPass } from './counting/nextPass.ts';
import type { PassesEstimate } from './counting/passesEstimate.ts';
import type { Range } from './model/range.ts';
import type { Surprise } from './model/surprise.ts';

/** A count as it was logged, beside what the books said; animals. */
export interface CountLogged {
  readonly tub: Tub;
  readonly saleable: number;
  readonly juveniles: number | null;
  readonly berried: number | null;
  readonly method: CountMethod;
  readonly at: Instant;
  /** Saleable animals that were believed to be there before; null: not counted before, or not to be compared as a newer count stands. */
  readonly expected: Range | null;
  /** What is believed now that this count is in. */
  readonly now: Range | null;
  /** Set where the count, or a part of it, was not expected. */
  readonly surprise: Surprise | null;
  /** A count of a later moment that is there already and stands. */
  readonly newer: { readonly saleable: number; readonly at: Instant } | null;
  /** What those seen at the dish stand for, and the pairs with full counts that say so; null: counted otherwise, or none was seen. */
  readonly dish: (DishEstimate & { readonly pairs: number }) | null;
  readonly entryId: number;
}

/** A count by removal passes, and what one more of them would give; null: no more can be added. */
export interface PassesLogged extends CountLogged {
  readonly catches: readonly number[];
  readonly estimate: PassesEstimate;
  readonly next: NextPass | null;
}

/** Animals moved between tubs, and how many are likely in both after; null: not counted. */
export interface MoveLogged {
  readonly from: Tub;
  readonly to: Tub;
  readonly number: number;
  readonly stage: Stage;
  readonly at: Instant;
  readonly left: number | null;
  readonly there: number | null;
  readonly entryId: number;
}

/** Animals found dead, and how many are likely left; null: not counted. */
export interface LossLogged {
  readonly tub: Tub;
  readonly number: number;
  readonly cause: string | null;
  readonly at: Instant;
  readonly left: number | null;
  /** Found dead in this tub over the last seven days, this loss included. */
  readonly inAWeek: number;
  readonly entryId: number;
}

/** A tub taken off sale up to and including a day (null: until lifted), or put back. */
export interface HoldSet {
  readonly tub: Tub;
  readonly reason: string;
  readonly until: LocalDay | null;
  readonly lifted: boolean;
  readonly entryId: number;
}
