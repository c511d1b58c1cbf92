import { addDays, day as dayOfText, type LocalDay, type MonthDay } from '../../day.ts';

/** The height of a northern summer indoors. */
const julyDay: LocalDay = dayOfText('2000-07-25');
/** Days of a mean Gregorian year. */
const yearDays = 365.2425;

/** Days from 1 March of a year to the beginning of each month, March first. */
const daysBefore = [0, 31, 61, 92, 122, 153, 184, 214, 245, 275, 306, 337] as const;

/** Days since 1 March of the year 0 by the Gregorian calendar: years begin in March, so that a leap day ends one. */
function civilDays(day: LocalDay): number {
  const digits = (from: number, to: number): number => {
    let value = 0;
    for (let at = from; at < to; at++) value = value * 10 + day.charCodeAt(at) - 48;
    return value;
  };
  const month = (digits(5, 7) + 9) % 12;
  const year = digits(0, 4) - (month > 9 ? 1 : 0);
  const leaps = Math.floor(year / 4) - Math.floor(year / 100) + Math.floor(year / 400);
  return 365 * year + leaps + (daysBefore[month] ?? 0) + digits(8, 10);
}

const julyDays = civilDays(julyDay);

/** Days since 25 July 2000, negative before. Reckoned without a date object: a look ahead asks for thousands. */
export const dayNumber = (day: LocalDay): number => civilDays(day) - julyDays;

/** Where in the year a day number lies, radians: 0 on 25 July. */
export const yearAngle = (number: number): number => (2 * Math.PI * number) / yearDays;

/** The day of the year at an angle of −π to π from 25 July. */
export const monthDayAt = (angle: number): MonthDay =>
  addDays(julyDay, Math.round((angle * yearDays) / (2 * Math.PI))).slice(5) as MonthDay;
