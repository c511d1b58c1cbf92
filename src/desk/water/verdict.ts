import {
  type Business,
  dayMs,
  type Instant,
  judgeReading,
  plusMs,
  type Reading,
  type Tub,
  type WaterValues,
  type WaterVerdict,
  waterIn,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

/** The tub's last pH and temperature of the 60 days before, and its usual TDS (median of at least three). */
function knownOf(
  desk: Desk,
  tub: Tub,
  at: Instant,
): { ph: number | null; tempC: number | null; usualTdsMgL: number | null } {
  const before = desk.store.water.readings(tub.id, plusMs(at, -180 * dayMs)).filter((reading) => reading.at < at);
  const recent = before.filter((reading) => reading.at >= plusMs(at, -60 * dayMs));
  const tds = before.flatMap(({ tdsMgL }) => (tdsMgL === null ? [] : [tdsMgL])).sort((a, b) => a - b);
  return {
    ph: recent.findLast(({ ph }) => ph !== null)?.ph ?? null,
    tempC: recent.findLast(({ tempC }) => tempC !== null)?.tempC ?? null,
    usualTdsMgL: tds.length < 3 ? null : (tds[Math.floor(tds.length / 2)] ?? null),
  };
}

/** A reading judged by what was known of its tub then; nitrate beside the water that goes in. */
export const verdictOn = (
  desk: Desk,
  business: Business,
  tub: Tub,
  reading: WaterValues & Pick<Reading, 'at'>,
): WaterVerdict =>
  judgeReading(reading, knownOf(desk, tub, reading.at), {
    ...business,
    sourceNitrateMgL: waterIn(business).values.nitrateMgL,
  });
