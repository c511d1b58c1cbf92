import { addDays, day, type LocalDay, monthOf, ok, type Result } from '../domain/index.ts';
import { type BadWords, badWords, tidied } from './badWords.ts';

/** A month by its first day, or a year by its number. */
export type SaidPeriod =
  | { readonly of: 'month'; readonly first: LocalDay }
  | { readonly of: 'year'; readonly year: number };

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const named =
  /^(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?(?:,? (\d{4}))?$/;

/**
 * The month or year that is meant by words about the past: "2026-10", "10/2026", "October", "Oct 2026", "last month", "2026", "last year".
 * A month without its year is the latest that has begun.
 */
export function parsePeriod(text: string, today: LocalDay): Result<SaidPeriod, BadWords> {
  const words = tidied(text);
  const [year, month] = today.split('-').map(Number) as [number, number];
  const asMonth = (inYear: number, number: number): Result<SaidPeriod, BadWords> =>
    number >= 1 && number <= 12 && inYear >= 2000 && inYear <= 9998
      ? ok({ of: 'month', first: day(`${inYear}-${String(number).padStart(2, '0')}-01`) })
      : badWords('month', text);
  const asYear = (number: number): Result<SaidPeriod, BadWords> =>
    number >= 2000 && number <= 9998 ? ok({ of: 'year', year: number }) : badWords('month', text);
  switch (words) {
    case 'this month':
    case 'month':
      return asMonth(year, month);
    case 'last month':
      return ok({ of: 'month', first: monthOf(addDays(monthOf(today).first, -1)).first });
    case 'this year':
    case 'year':
      return asYear(year);
    case 'last year':
      return asYear(year - 1);
  }
  const iso = /^(\d{4})[-/.](\d{1,2})$/.exec(words);
  if (iso !== null) return asMonth(Number(iso[1]), Number(iso[2]));
  const monthFirst = /^(\d{1,2})[-/.](\d{4})$/.exec(words);
  if (monthFirst !== null) return asMonth(Number(monthFirst[2]), Number(monthFirst[1]));
  if (/^\d{4}$/.test(words)) return asYear(Number(words));
  const [, name, inYear] = named.exec(words) ?? [];
  if (name === undefined) return badWords('month', text);
  const number = months.indexOf(name.slice(0, 3)) + 1;
  return asMonth(inYear === undefined ? (number > month ? year - 1 : year) : Number(inYear), number);
}
