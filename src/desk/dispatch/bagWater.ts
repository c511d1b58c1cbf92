import { type Business, dayMs, type Packed, plusMs, type WaterValueName } from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';

/** Where nothing was measured: a room's temperature, and a pH at which much of the ammonia is un-ionised. Common practice, no source. */
const usualWater = { tempC: 20, ph: 8 } as const;

/** Readings older than this tell nothing of the water that is bagged, days. Our choice. */
const readingKeepsDays = 60;

/** The water that bags are filled with. */
export interface BagWater {
  readonly tempC: number;
  readonly ph: number;
  readonly khDkh: number | null;
  readonly measured: Packed['measured'];
}

/**
 * The water of a line's tubs as a bag may get it, of each value the highest that was measured lately; where none of them tells, of all
 * tubs. Null for the line: all tubs from the start.
 */
export function bagWaterOf(desk: Desk, business: Business, lineId: number | null): BagWater {
  const since = plusMs(desk.now(), -readingKeepsDays * dayMs);
  const tubs = tubsInUse(desk);
  const itsTubs = tubs.filter((tub) => tub.lineId === lineId);
  const highest = (name: WaterValueName): number | null => {
    for (const some of [itsTubs, tubs]) {
      const values = some.flatMap(({ id }) => {
        const reading = desk.store.water.latestWith(id, name);
        const value = reading?.[name] ?? null;
        return reading === undefined || value === null || reading.at < since ? [] : [value];
      });
      if (values.length > 0) return Math.max(...values);
    }
    return null;
  };
  const [tempC, ph, khDkh] = [highest('tempC'), highest('ph'), highest('khDkh')];
  return {
    tempC: tempC ?? usualWater.tempC,
    ph: ph ?? usualWater.ph,
    khDkh: khDkh ?? business.sourceKhDkh,
    measured: { tempC: tempC !== null, ph: ph !== null },
  };
}

/** Hours that a parcel's bags must last: transit, slack and a day of delay. */
export const hoursOnTheWay = ({ transitDays, slackDays }: Business): number => (transitDays + slackDays + 1) * 24;
