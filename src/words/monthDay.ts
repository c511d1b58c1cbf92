import { type MonthDay, ok, parseMonthDay, type Result } from '../domain/index.ts';
import { type BadDate, badDate, tidied } from './badWords.ts';

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const monthPattern =
  '(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\\.?';
const datePattern = '(\\d{1,2})(?:st|nd|rd|th)?\\.?';
const yearPattern = '(?:,? (\\d{4}))?';
const dayFirst = new RegExp(`^${datePattern} ?(?:of )?${monthPattern}${yearPattern}$`);
const monthFirst = new RegExp(`^${monthPattern} ?${datePattern}${yearPattern}$`);

/** A day of the year that was named with its month in words, and the year where one was typed. */
export interface NamedDate {
  /** Undefined where no year has that day (30 Feb). */
  readonly monthDay: MonthDay | undefined;
  readonly year: number | null;
}

/** Reads "1 Dec", "1st of December", "December 1", "1 Dec 2027"; undefined where the text has another form. */
export function readNamedDate(text: string): NamedDate | undefined {
  const first = dayFirst.exec(text);
  const [date, month, year] = first === null ? swapped(monthFirst.exec(text)) : first.slice(1);
  if (date === undefined || month === undefined) return undefined;
  const number = months.indexOf(month.slice(0, 3)) + 1;
  const monthDay = parseMonthDay(`${String(number).padStart(2, '0')}-${date.padStart(2, '0')}`);
  return { monthDay, year: year === undefined ? null : Number(year) };
}

const swapped = (found: RegExpExecArray | null): (string | undefined)[] =>
  found === null ? [] : [found[2], found[1], found[3]];

/** The recurring day that is meant by "12-01", "1 Dec", "29 Feb" or "December 1". */
export function parseMonthDayWords(text: string): Result<MonthDay, BadDate> {
  const words = tidied(text);
  const named = readNamedDate(words);
  const found = named === undefined ? parseMonthDay(words) : named.year === null ? named.monthDay : undefined;
  return found === undefined ? badDate('month-day', text) : ok(found);
}
