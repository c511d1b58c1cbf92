import { daysIn, type LocalDay, type MonthDay, monthOf, type Period } from '../domain/index.ts';
import { minorDigits, monthDayWords, type Voice } from './voice.ts';

const monthNames = [
  ...['January', 'February', 'March', 'April', 'May', 'June'],
  ...['July', 'August', 'September', 'October', 'November', 'December'],
] as const;

const monthName = (day: LocalDay): string => monthNames[Number(day.slice(5, 7)) - 1] ?? '';

/** "October", with its year where that is not this one. */
export const monthWords = (voice: Voice, { first }: Period): string =>
  `${monthName(first)}${first.slice(0, 4) === voice.today.slice(0, 4) ? '' : ` ${first.slice(0, 4)}`}`;

/** "2026" of a calendar year, "the year from 6 Apr 2026" of another. */
export function yearWords({ first }: Period): string {
  const year = first.slice(0, 4);
  const monthDay = first.slice(5) as MonthDay;
  return monthDay === '01-01' ? year : `Year from ${monthDayWords(monthDay)} ${year}`;
}

/** Whether a period is one whole calendar month. */
export const isMonth = (period: Period): boolean =>
  daysIn(monthOf(period.first)) === daysIn(period) && period.first.endsWith('-01');

/** An amount as a decimal number of exactly the currency's digits, "-12.30": whole minor units put apart, nothing reckoned. */
export function decimalWords(currency: string, minor: number): string {
  const digits = minorDigits(currency);
  const text = String(Math.abs(minor)).padStart(digits + 1, '0');
  const sign = minor < 0 ? '-' : '';
  return digits === 0 ? `${sign}${text}` : `${sign}${text.slice(0, -digits)}.${text.slice(-digits)}`;
}
