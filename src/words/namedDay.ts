import { en } from 'chrono-node';
import { type LocalDay, type MonthDay, parseDay, parseMonthDay, type Weekday, weekdayOf } from '../domain/index.ts';
import { readNamedDate } from './monthDay.ts';
import { weekdayNamed, weekdayPattern, withFullWeekdays } from './weekdayNames.ts';

/** What words say about a day before anyone decides whether the past or the future is meant. */
export type NamedDay =
  | { readonly of: 'nothing' }
  | { readonly of: 'day'; readonly day: LocalDay }
  | { readonly of: 'weekday'; readonly weekday: Weekday }
  | { readonly of: 'month-day'; readonly monthDay: MonthDay; readonly weekday: Weekday | null };

const leadingWeekday = new RegExp(`^(${weekdayPattern}),? (?=.*\\d)`);

/** Reads tidied words for a day as seen from `today`; undefined where they name none, or one that does not exist. */
export function readDay(text: string, today: LocalDay): NamedDay | undefined {
  const words = text.replace(/^(?:on|at|the)(?: |$)/, '').replace(/[ ,]+(?:at|on)?$/, '');
  if (words === '') return { of: 'nothing' };
  const weekday = weekdayNamed(words);
  if (weekday !== undefined) return { of: 'weekday', weekday };
  const lead = leadingWeekday.exec(words);
  const date = readDate(lead === null ? words : words.slice(lead[0].length));
  if (date === 'other') return readLoosely(withFullWeekdays(words), today);
  if (date === undefined) return undefined;
  const said = lead === null ? undefined : weekdayNamed(lead[1] ?? '');
  if (date.of === 'month-day') return said === undefined ? date : { ...date, weekday: said };
  // "Wed 1 Dec 2026" where that is a Tuesday is a slip in one of the two: nobody can tell which.
  return said !== undefined && weekdayOf(date.day) !== said ? undefined : date;
}

type ReadDate =
  | { readonly of: 'day'; readonly day: LocalDay }
  | { readonly of: 'month-day'; readonly monthDay: MonthDay; readonly weekday: null };

const two = (number: string): string => number.padStart(2, '0');

function readDate(words: string): ReadDate | undefined | 'other' {
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(words);
  if (iso !== null) return dated(iso[1], `${two(iso[2] ?? '')}-${two(iso[3] ?? '')}`);
  if (/^\d{2}-\d{2}$/.test(words)) return dated(undefined, words);
  const named = readNamedDate(words);
  if (named !== undefined) {
    return named.monthDay === undefined ? undefined : dated(named.year?.toString(), named.monthDay);
  }
  const numbers = /^(\d{1,2})[/.-](\d{1,2})(?:[/.-](\d{4}))?$/.exec(words);
  if (numbers === null) return 'other';
  const [, first = '', second = '', year] = numbers;
  // Day first in most of the world, month first in the United States: taken only where one order is possible.
  if (Number(first) <= 12 && Number(second) <= 12 && Number(first) !== Number(second)) return undefined;
  return dated(year, Number(second) > 12 ? `${two(first)}-${two(second)}` : `${two(second)}-${two(first)}`);
}

function dated(year: string | undefined, monthDay: string): ReadDate | undefined {
  if (year !== undefined) {
    const day = parseDay(`${year}-${monthDay}`);
    return day === undefined ? undefined : { of: 'day', day };
  }
  const found = parseMonthDay(monthDay);
  return found === undefined ? undefined : { of: 'month-day', monthDay: found, weekday: null };
}

/** "yesterday", "next tuesday", "3 days ago", "in a week", "monday next week": the library's phrases, the whole text or nothing. */
function readLoosely(words: string, today: LocalDay): NamedDay | undefined {
  if (words === 'the day before yesterday' || words === 'day before yesterday') return readLoosely('2 days ago', today);
  if (words === 'the day after tomorrow' || words === 'day after tomorrow') return readLoosely('in 2 days', today);
  // The library reckons on the machine's own clock face. At noon no zone has a clock change, so a day stays a day.
  const [found, another] = en.GB.parse(words, { instant: new Date(`${today}T12:00:00Z`), timezone: 0 });
  if (found === undefined || another !== undefined || found.text.trim() !== words || found.end) return undefined;
  const { start } = found;
  if (start.isCertain('hour') || !(start.isCertain('day') || start.isCertain('weekday'))) return undefined;
  const parts = [start.get('year'), start.get('month'), start.get('day')];
  const day = parseDay(parts.map((part, index) => String(part).padStart(index === 0 ? 4 : 2, '0')).join('-'));
  return day === undefined ? undefined : { of: 'day', day };
}
