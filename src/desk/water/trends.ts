import { dayMs, type MovingValue, plusMs, type Tub, trendOf, type WaterValueName } from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

/** The values whose going one way is news, and the least move that a pen or a drop kit tells (common practice, no source). */
const canTell = { tdsMgL: 5, ghDgh: 1, khDkh: 1, ph: 0.3 } as const satisfies Partial<Record<WaterValueName, number>>;
const names = Object.keys(canTell) as (keyof typeof canTell)[];

const pastDays = 180;

/** The values of a tub that rise or fall by its own readings of the last half year. */
export function movingValues(desk: Desk, tub: Tub): MovingValue[] {
  const now = desk.now();
  const readings = desk.store.water.readings(tub.id, plusMs(now, -pastDays * dayMs));
  return names.flatMap((name) => {
    const points = readings.flatMap(({ at, [name]: value }) => (value === null ? [] : [{ at, value }]));
    const trend = trendOf(points, now, canTell[name]);
    return trend.of === 'rising' || trend.of === 'falling' ? [{ name, trend }] : [];
  });
}
