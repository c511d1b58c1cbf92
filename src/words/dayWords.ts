import { addDays, dayOf, type Instant, type LocalDay, ok, parseDay, type Result, weekdayOf } from '../domain/index.ts';
import { type BadDate, badDate, tidied } from './badWords.ts';
import { readInstant } from './instantWords.ts';
import { type NamedDay, readDay } from './namedDay.ts';

/** Years within which every month-day comes round again, 29 February over a century without leap day included. */
const yearsToSearch = 8;

/**
 * The day that is meant by words in a plan, looking forward from `today` (which counts): "Mon", "tomorrow", "next Tue",
 * "1 Dec", "2027-03-01". A date with its year, and words that say the past ("yesterday"), come back as they are.
 */
export function parseDayWords(
  text: string,
  { today, zone }: { readonly today: LocalDay; readonly zone: string },
): Result<LocalDay, BadDate> {
  const words = tidied(text);
  const instant: Instant | undefined = readInstant(words);
  if (instant !== undefined) return ok(dayOf(instant, zone));
  const named = readDay(words, today);
  const found = named === undefined ? undefined : onOrAfter(named, today);
  return found === undefined ? badDate('day', text) : ok(found);
}

function onOrAfter(named: NamedDay, today: LocalDay): LocalDay | undefined {
  switch (named.of) {
    case 'nothing':
      return undefined;
    case 'day':
      return named.day;
    case 'weekday':
      return addDays(today, (named.weekday - weekdayOf(today) + 7) % 7);
    case 'month-day': {
      const thisYear = Number(today.slice(0, 4));
      for (let year = thisYear; year <= thisYear + yearsToSearch; year++) {
        const found = parseDay(`${year}-${named.monthDay}`);
        if (found === undefined || found < today) continue;
        return named.weekday === null || weekdayOf(found) === named.weekday ? found : undefined;
      }
      return undefined;
    }
  }
}
