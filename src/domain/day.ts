import { TZDate, tzOffset } from '@date-fns/tz';

/** A calendar day `YYYY-MM-DD` in the business's time zone. Never an instant. */
export type LocalDay = string & { readonly __brand: 'LocalDay' };

/** A moment in UTC, ISO 8601 with milliseconds and `Z`; sorts as text. */
export type Instant = string & { readonly __brand: 'Instant' };

/** Day of the week, ISO 8601: Monday 1 to Sunday 7. */
export type Weekday = 1 | 2 | 3 | 4 | 5 | 6 | 7;

/** A recurring day of the year, `MM-DD`, 29 February allowed. */
export type MonthDay = string & { readonly __brand: 'MonthDay' };

/** A time of day on the wall, `HH:MM`. */
export type WallTime = string & { readonly __brand: 'WallTime' };

/** Milliseconds of a minute, an hour, and a day of 24 hours: spans between instants. Calendar days go by `addDays`. */
export const minuteMs = 60_000;
export const hourMs = 60 * minuteMs;
export const dayMs = 24 * hourMs;

const utcMs = (day: LocalDay): number => Date.parse(`${day}T00:00:00Z`);

const fromUtcMs = (ms: number): LocalDay => new Date(ms).toISOString().slice(0, 10) as LocalDay;

/** The day that `text` writes as `YYYY-MM-DD`, or undefined where there is no such day (2027-02-29). */
export function parseDay(text: string): LocalDay | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return undefined;
  const ms = Date.parse(`${text}T00:00:00Z`);
  return Number.isNaN(ms) || fromUtcMs(ms) !== text ? undefined : (text as LocalDay);
}

/** The day that is known to be well formed; throws on anything else, as that is a bug. */
export function day(text: string): LocalDay {
  const parsed = parseDay(text);
  if (parsed === undefined) throw new Error(`not a calendar day: ${text}`);
  return parsed;
}

/** The time of day that `text` writes as `H:MM` or `HH:MM`, 00:00 to 23:59, or undefined. */
export function parseWallTime(text: string): WallTime | undefined {
  const found = /^(\d{1,2})[:.](\d{2})$/.exec(text.trim());
  if (found === null) return undefined;
  const [hours, minutes] = [Number(found[1]), Number(found[2])];
  if (hours > 23 || minutes > 59) return undefined;
  return `${String(hours).padStart(2, '0')}:${String(minutes).padStart(2, '0')}` as WallTime;
}

/** The recurring day that `text` writes as `MM-DD`, or undefined where no year has it. */
export function parseMonthDay(text: string): MonthDay | undefined {
  return /^\d{2}-\d{2}$/.test(text) && parseDay(`2028-${text}`) !== undefined ? (text as MonthDay) : undefined;
}

/** The instant of a JavaScript date; throws on an invalid one. */
export const instantOf = (date: Date): Instant => date.toISOString() as Instant;

/** Milliseconds since 1970 of an instant. */
export const msOf = (at: Instant): number => Date.parse(at);

/** The instant `ms` milliseconds after `at` (negative: before). */
export const plusMs = (at: Instant, ms: number): Instant => instantOf(new Date(msOf(at) + ms));

/** Days from `a` to `b`, whole, negative when `b` is earlier. */
export const daysBetween = (a: LocalDay, b: LocalDay): number => Math.round((utcMs(b) - utcMs(a)) / dayMs);

/** The day `n` days after `from` (negative: before). */
export const addDays = (from: LocalDay, n: number): LocalDay => fromUtcMs(utcMs(from) + n * dayMs);

/** Day of the week of a calendar day. */
export function weekdayOf(of: LocalDay): Weekday {
  const sundayZero = new Date(utcMs(of)).getUTCDay();
  return (sundayZero === 0 ? 7 : sundayZero) as Weekday;
}

/** The calendar day on which `at` falls in `zone` (IANA name). */
export const dayOf = (at: Instant, zone: string): LocalDay => wallClock(at, zone).slice(0, 10) as LocalDay;

/** The time of day of `at` in `zone`. */
export const timeOf = (at: Instant, zone: string): WallTime => wallClock(at, zone).slice(11, 16) as WallTime;

/** By how much clocks go back in autumn: an hour, on Lord Howe Island half of one. */
const doubledMs = [hourMs, hourMs / 2] as const;

function wallClock(at: Instant, zone: string): string {
  const ms = msOf(at);
  return instantOf(new Date(ms + tzOffset(zone, new Date(ms)) * minuteMs)).slice(0, 16);
}

/**
 * The instant at which the wall clock in `zone` shows `time` on `of`. In a spring gap the time does not exist and the
 * clock's own reading after the jump is taken (02:30 → 03:30); in autumn the first of the two is taken.
 */
export function instantAt(of: LocalDay, time: WallTime, zone: string): Instant {
  const [year, month, date] = of.split('-').map(Number) as [number, number, number];
  const [hours, minutes] = time.split(':').map(Number) as [number, number];
  const local = new TZDate(year, month - 1, date, hours, minutes, 0, 0, zone);
  const found = instantOf(new Date(local.getTime()));
  const shows = (at: Instant): boolean => dayOf(at, zone) === of && timeOf(at, zone) === time;
  return doubledMs.map((ms) => plusMs(found, -ms)).find(shows) ?? found;
}

const knownZones = new Map<string, boolean>();

/** Whether `zone` names a time zone that this machine knows. */
export function isTimeZone(zone: string): boolean {
  const known = knownZones.get(zone) ?? canFormatIn(zone);
  if (knownZones.size < 1000) knownZones.set(zone, known);
  return known;
}

function canFormatIn(timeZone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone });
    return true;
  } catch {
    return false;
  }
}
