import { addDays, day as dayOfText, daysBetween, type LocalDay, type MonthDay } from '../../day.ts';

/** The height of a northern summer indoors. */
const julyDay: LocalDay = dayOfText('2000-07-25');
/** Days of a mean Gregorian year. */
const yearDays = 365.2425;

/** Days since 25 July 2000, negative before. */
export const dayNumber = (day: LocalDay): number => daysBetween(julyDay, day);

/** Where in the year a day number lies, radians: 0 on 25 July. */
export const yearAngle = (number: number): number => (2 * Math.PI * number) / yearDays;

/** The day of the year at an angle of −π to π from 25 July. */
export const monthDayAt = (angle: number): MonthDay =>
  addDays(julyDay, Math.round((angle * yearDays) / (2 * Math.PI))).slice(5) as MonthDay;
