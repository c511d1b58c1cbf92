import { dayOf, instantAt, type Line, paceStretch, type WallTime, weeklyPace } from '../../domain/index.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';

/**
 * Animals of a line sold a week as now, extras included: sent on the latest open days, and promised.
 * @param promised animals that open sales reserve, extras included
 */
export function paceOf(desk: Desk, line: Line, promised: number): number {
  const { zone } = businessOf(desk);
  const today = todayOf(desk);
  const begun = desk.store.tubs
    .tubs()
    .filter(({ lineId }) => lineId === line.id)
    .map(({ addedAt }) => dayOf(addedAt, zone))
    .toSorted()[0];
  const stretch = paceStretch(desk.store.seasons.windows(), today, begun ?? today);
  const since = instantAt(stretch.from, '00:00' as WallTime, zone);
  return weeklyPace(desk.store.parcels.sentOf(line.id, since) + promised, stretch);
}
