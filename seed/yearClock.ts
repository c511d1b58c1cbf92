import { addDays, dayOf, type Instant, instantAt, type LocalDay, plusMs, type WallTime } from '../src/domain/index.ts';

/** The clock of the demo year: it stands still until it is put on, and never goes back. */
export interface YearClock {
  now(): Instant;
  today(): LocalDay;
  /** Puts the clock on to a time of day, unless that has passed. */
  goTo(day: LocalDay, time: string): void;
  pass(minutes: number): void;
}

/** How long the year is: a whole one, and some days to begin with. */
const yearDays = 371;

/** First and last day of the year that ends on the evening before `now`. */
export function daysOfYear(now: Instant, zone: string): { readonly first: LocalDay; readonly last: LocalDay } {
  const today = dayOf(now, zone);
  return { first: addDays(today, -yearDays), last: addDays(today, -1) };
}

/** @param end the clock is never put past it: nothing of the year lies in the future */
export function openYearClock(first: LocalDay, end: Instant, zone: string): YearClock {
  let at = instantAt(first, '07:00' as WallTime, zone);
  const putTo = (to: Instant): void => {
    if (to > end) throw new Error(`the demo year runs past its end: ${to} is after ${end}`);
    if (to > at) at = to;
  };
  return {
    now: () => at,
    today: () => dayOf(at, zone),
    goTo: (day, time) => putTo(instantAt(day, time as WallTime, zone)),
    pass: (minutes) => putTo(plusMs(at, Math.round(minutes * 60) * 1000)),
  };
}
