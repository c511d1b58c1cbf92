import type { ClosedWindow } from '../business.ts';
import { addDays, daysBetween, type LocalDay } from '../day.ts';
import { closedBy } from '../dispatch/windows.ts';

/** The latest days on which could be sold, from which sales as now are told. */
export interface PaceStretch {
  readonly from: LocalDay;
  /** Open days in it, 1 and up. */
  readonly openDays: number;
}

/** Eight weeks (our choice): long enough for a slow line, short enough for "now". */
const wantedDays = 56;
/** Further back is another year, days. */
const furthestDays = 366;
/** Fewer days than these make a pace out of one parcel. */
const leastDays = 7;

/** The last 56 days up to today on which no window was closed, as far as they lie after `since` and within a year; 7 days at least. */
export function paceStretch(windows: readonly ClosedWindow[], today: LocalDay, since: LocalDay): PaceStretch {
  const furthest = Math.min(furthestDays, Math.max(0, daysBetween(since, today)));
  let [from, openDays] = [today, 0];
  for (let back = 0; back <= furthest && openDays < wantedDays; back++) {
    from = addDays(today, -back);
    if (closedBy(windows, from) === null) openDays++;
  }
  return { from, openDays: Math.max(leastDays, openDays) };
}

/** Animals a week at the pace of a stretch, to a tenth. */
export const weeklyPace = (animals: number, { openDays }: PaceStretch): number =>
  Math.round((animals * 70) / openDays) / 10;

/** Animals over the breeders that an opening wants at least. */
const leastStock = 20;
/** Days of a month, the mean of the year. */
const monthDays = 30.4;

/** Animals over the breeders that shall be there when it opens again: a month's sales as now, 20 at least (our choice). */
export const wantedStock = (weekly: number): number => Math.max(leastStock, Math.round((weekly * monthDays) / 7));
