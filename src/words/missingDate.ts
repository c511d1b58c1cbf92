import { parseDay } from '../domain/index.ts';

const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const monthWord = `(${months.join('|')})[a-z]*\\.?`;
const dateNumber = '(\\d{1,2})(?:st|nd|rd|th)?\\.?';
const yearEnd = '(?:,? (\\d{4}))?(?![\\d:])';
const isoDate = /(?<!\d)(\d{4})-(\d{1,2})-(\d{1,2})(?!\d)/;
const dayFirst = new RegExp(`(?<![\\d:])${dateNumber} ?(?:of )?${monthWord}${yearEnd}`);
const monthFirst = new RegExp(`${monthWord} ?${dateNumber}${yearEnd}`);

/** A leap year, so that 29 Feb without a year is a date. */
const anyYear = '2028';

/** The first date in tidied words that has the form of one and that no calendar has ("31 feb", "2027-02-29"); else undefined. */
export function missingDate(words: string): string | undefined {
  const iso = isoDate.exec(words);
  const first = dayFirst.exec(words);
  const second = monthFirst.exec(words);
  const found = iso ?? first ?? second;
  if (found === null) return undefined;
  const [text, one = '', two = '', three = ''] = found;
  const named = (month: string): string => String(months.indexOf(month) + 1);
  const [year, month, date] =
    found === iso ? [one, two, three] : found === first ? [three, named(two), one] : [three, named(one), two];
  const padded = [year === '' ? anyYear : year, month.padStart(2, '0'), date.padStart(2, '0')].join('-');
  return parseDay(padded) === undefined ? text : undefined;
}
