import type { Instant } from '../day.ts';
import type { TopUpWater, Tub, WaterValues } from '../tub.ts';
import type { ChangePlan } from './planner.ts';
import type { WaterVerdict } from './verdict.ts';

/** A water change as it was logged, what it did to nitrate (null: never read), and the next one. */
export interface ChangeLogged {
  readonly tub: Tub;
  readonly litres: number;
  readonly percent: number;
  readonly at: Instant;
  readonly nitrateMgL: { readonly before: number; readonly after: number } | null;
  readonly next: ChangePlan;
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
  readonly entryId: number;
}

/** A reading as it was logged, its verdict, and the change that the tub needs next. */
export interface ReadingLogged {
  readonly tub: Tub;
  readonly reading: WaterValues & { readonly at: Instant };
  readonly verdict: WaterVerdict;
  readonly plan: ChangePlan;
  readonly entryId: number;
}
