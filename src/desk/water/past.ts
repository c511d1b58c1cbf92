import {
  type Change,
  dayMs,
  fail,
  firstImpossible,
  ok,
  plusMs,
  type Reading,
  type Refusal,
  type Result,
  type Tub,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { findTub } from '../find.ts';

/** What was read in a tub and changed in it, oldest first, and the nitrate that it should stay under. */
export interface WaterPast {
  readonly tub: Tub;
  readonly readings: readonly Reading[];
  readonly changes: readonly Change[];
  readonly nitrateLimitMgL: number;
}

/** A tub's water over the last `days`. */
export function waterPast(desk: Desk, tub: Tub, days: number): WaterPast {
  const since = plusMs(desk.now(), -days * dayMs);
  return {
    tub,
    readings: desk.store.water.readings(tub.id, since),
    changes: desk.store.water.changes(tub.id, since),
    nitrateLimitMgL: businessOf(desk).nitrateLimitMgL,
  };
}

/** The water over the last `days` of the tub that was typed. */
export function readingHistory(desk: Desk, typed: string, days: number): Result<WaterPast, Refusal> {
  const found = findTub(desk, typed);
  if (!found.ok) return found;
  const refused = firstImpossible([['days', days]]);
  if (refused !== null) return fail(refused);
  return ok(waterPast(desk, found.value, days));
}
