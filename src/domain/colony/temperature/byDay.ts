import type { LocalDay } from '../../day.ts';
import { middleOf } from '../middle.ts';
import { dayNumber } from './dayNumber.ts';

/** A temperature read in a tub of the rack, °C. */
export interface TempPoint {
  readonly day: LocalDay;
  readonly tempC: number;
}

/** What was read on one day. */
export interface ReadDay extends TempPoint {
  readonly number: number;
}

/** Readings by day, in order of the days; of a day the median, so that one misread tub of several is passed over. */
export function readDays(points: readonly TempPoint[]): ReadDay[] {
  const days = new Map<LocalDay, number[]>();
  for (const { day, tempC } of points) {
    const sofar = days.get(day);
    if (sofar === undefined) days.set(day, [tempC]);
    else sofar.push(tempC);
  }
  return [...days]
    .map(([day, temps]) => ({ day, number: dayNumber(day), tempC: middleOf(temps) }))
    .sort((a, b) => a.number - b.number);
}
