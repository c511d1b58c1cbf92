import type { Instant } from '../day.ts';
import type { TopUpWater, Tub, WaterValueName, WaterValues } from '../tub.ts';
import type { Creep } from './creep.ts';
import type { Contradiction } from './nitrate/contradiction.ts';
import type { ReadInterval } from './nitrate/interval.ts';
import type { ChangePlan } from './planner.ts';
import type { StandingValue } from './standing.ts';
import type { Trend } from './trend.ts';
import type { WaterVerdict } from './verdict.ts';

/** A water change as it was logged, what it did to nitrate (null: never read), and the next one. */
export interface ChangeLogged {
  readonly tub: Tub;
  readonly litres: number;
  readonly percent: number;
  readonly at: Instant;
  readonly nitrateMgL: { readonly before: number; readonly after: number } | null;
  readonly next: ChangePlan;
  /** The change before it that it came within the interval of, and what the two swap together, per cent; null: none. */
  readonly together: { readonly litres: number; readonly at: Instant; readonly percent: number } | null;
  /** What is not fine in the tub's water after it, the worst first. */
  readonly standing: readonly StandingValue[];
  readonly entryId: number;
}

/** Replaced evaporation as it was logged, L. */
export interface TopUpLogged {
  readonly tub: Tub;
  readonly litres: number;
  readonly water: TopUpWater;
  readonly at: Instant;
  /** TDS as last read and what the minerals of this top-up add to it, mg/L; null: not known. */
  readonly tdsMgL: { readonly last: number | null; readonly adds: number | null };
  /** What such top-ups and changes come to; null: the log is too young to tell. */
  readonly creep: Creep | null;
  readonly sourceTdsMgL: number | null;
  readonly entryId: number;
}

/** A reading as it was logged, its verdict, and the change that the tub needs next. */
export interface ReadingLogged {
  readonly tub: Tub;
  readonly reading: WaterValues & { readonly at: Instant };
  readonly verdict: WaterVerdict;
  readonly plan: ChangePlan;
  /** What the nitrate that was typed stands for on the kit; null: not read. */
  readonly kit: ReadInterval | null;
  /** Set where the nitrate does not follow from what was logged before. */
  readonly odd: OddReading | null;
  /** The values read now that go one way, by the tub's own readings. */
  readonly trends: readonly MovingValue[];
  /** The same nitrate, read within the hour before; null: none was. */
  readonly sameLook: SameLook | null;
  /** What is not fine in the tub's water now, this reading and earlier ones together, the worst first. */
  readonly standing: readonly StandingValue[];
  readonly entryId: number;
}

/** Another reading that shows the same. */
export interface SameLook {
  readonly by: string;
  readonly at: Instant;
  /** Whether the second counts as a look of its own, as the first did not fit and a test was asked for. */
  readonly isCounted: boolean;
}

/** A value of a tub that rises or falls. */
export interface MovingValue {
  readonly name: WaterValueName;
  readonly trend: Exclude<Trend, { readonly of: 'unknown' }>;
}

/** A nitrate reading that does not follow, and what would put the books right, the likeliest first. */
export interface OddReading extends Contradiction {
  /** The entry of the reading. */
  readonly entryId: number;
  readonly at: Instant;
  readonly fixes: readonly ReadingFix[];
}

/** An act that puts the books right after somebody said what happened. */
export type ReadingFix =
  /** The reading is voided and logged anew with this nitrate. */
  | { readonly of: 'reading'; readonly because: 'misread' | 'nitrogen'; readonly nitrateMgL: number }
  /** A change is logged for before the reading; `again`: one that was logged was made twice. */
  | { readonly of: 'missed-change'; readonly litres: number; readonly at: Instant; readonly again: boolean }
  /** A change that was not made is voided. */
  | { readonly of: 'change-not-made'; readonly changeEntryId: number; readonly litres: number; readonly at: Instant };
