import {
  addDays,
  day,
  daysBetween,
  type Instant,
  instantAt,
  type LocalDay,
  type MonthDay,
  parseDay,
  type WallTime,
} from '../day.ts';

/** Some days, first and last included. */
export interface Period {
  readonly first: LocalDay;
  readonly last: LocalDay;
}

/** Days in a period. */
export const daysIn = ({ first, last }: Period): number => daysBetween(first, last) + 1;

export const isWithin = (of: LocalDay, { first, last }: Period): boolean => of >= first && of <= last;

/** What two periods have in common; undefined: nothing. */
export function overlap(a: Period, b: Period): Period | undefined {
  if (a.first > b.last || b.first > a.last) return undefined;
  // Days sort as text.
  const [, first = a.first] = [a.first, b.first].sort();
  const [last = a.last] = [a.last, b.last].sort();
  return { first, last };
}

/** The calendar month that a day is in. */
export function monthOf(of: LocalDay): Period {
  const first = day(`${of.slice(0, 7)}-01`);
  return { first, last: addDays(monthAfter(first), -1) };
}

/** The first day of the month after. */
const monthAfter = (first: LocalDay): LocalDay => day(`${addDays(first, 31).slice(0, 7)}-01`);

/** The same date some months before, or the last of that month where it has no such date. */
export function monthsBefore(of: LocalDay, months: number): LocalDay {
  const [year, month] = [Number(of.slice(0, 4)), Number(of.slice(5, 7))];
  const at = year * 12 + month - 1 - months;
  const first = day(`${String(Math.floor(at / 12)).padStart(4, '0')}-${String((at % 12) + 1).padStart(2, '0')}-01`);
  return parseDay(`${first.slice(0, 8)}${of.slice(8)}`) ?? monthOf(first).last;
}

/** The calendar months of a period, oldest first, cut to it at both ends. */
export function monthsIn(period: Period): Period[] {
  const months: Period[] = [];
  for (let first = monthOf(period.first).first; first <= period.last; first = monthAfter(first)) {
    const common = overlap(monthOf(first), period);
    if (common !== undefined) months.push(common);
  }
  return months;
}

/**
 * The day on which a tax year begins: 6 April in the United Kingdom (Income Tax Act 2007, section 4), else 1 January, as in most of the
 * world; a business with another one says so.
 */
export const taxYearStart = (region: string | null): MonthDay =>
  (region !== null && /^GB(-|$)/.test(region) ? '04-06' : '01-01') as MonthDay;

/** The tax year that a day is in; one that begins on 29 February begins on 1 March in other years. */
export function taxYearOf(of: LocalDay, start: MonthDay): Period {
  const year = Number(of.slice(0, 4));
  const begin = (in_: number): LocalDay => parseDay(`${String(in_).padStart(4, '0')}-${start}`) ?? day(`${in_}-03-01`);
  const first = begin(year) <= of ? year : year - 1;
  return { first: begin(first), last: addDays(begin(first + 1), -1) };
}

/** The tax years that a period touches, whole, oldest first. */
export function taxYearsIn(period: Period, start: MonthDay): Period[] {
  const years: Period[] = [];
  for (
    let year = taxYearOf(period.first, start);
    year.first <= period.last;
    year = taxYearOf(addDays(year.last, 1), start)
  ) {
    years.push(year);
  }
  return years;
}

const midnight = '00:00' as WallTime;

/**
 * Tells the local days of many instants within a period: the midnights are reckoned once, and each instant is looked up among them.
 * @returns gives the day of an instant, which must lie within the period
 */
export function daysWithin({ first, last }: Period, zone: string): (at: Instant) => LocalDay {
  const days = Array.from({ length: daysBetween(first, last) + 1 }, (_, index) => addDays(first, index));
  const begins = days.map((each) => instantAt(each, midnight, zone));
  return (at) => {
    let [low, high] = [0, begins.length - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      // Instants sort as text.
      if ((begins[middle] ?? at) <= at) low = middle;
      else high = middle - 1;
    }
    return days[low] ?? first;
  };
}
