import {
  addDays,
  dayOf,
  hourMs,
  type Instant,
  instantAt,
  type LocalDay,
  ok,
  parseDay,
  plusMs,
  type Result,
  timeOf,
  type WallTime,
  weekdayOf,
} from '../domain/index.ts';
import { readAgo } from './ago.ts';
import { type BadDate, badDate, tidied } from './badWords.ts';
import { type DayPart, takeTime } from './clockTime.ts';
import { readInstant } from './instantWords.ts';
import { type NamedDay, readDay } from './namedDay.ts';

/** A moment that somebody named; `dayOnly` where no time was said and one was put in. */
export interface SaidMoment {
  readonly at: Instant;
  readonly dayOnly: boolean;
}

const noon = '12:00' as WallTime;
const yearsToSearch = 8;

/**
 * The moment that is meant by words in a log, where the past is meant: "18:00" is the latest six o'clock that has been,
 * "Mon" the last Monday. A day without a time is noon, today without a time is now. What says the future outright
 * ("tomorrow", a date with its year, "today 18:00" in the morning) comes back as it is.
 */
export function parseWhen(
  text: string,
  { now, zone }: { readonly now: Instant; readonly zone: string },
): Result<SaidMoment, BadDate> {
  const words = tidied(text).replace(/^(?:just|right) now$/, 'now');
  const ago = readAgo(words);
  const exact = words === 'now' ? now : ago === undefined ? readInstant(words) : plusMs(now, -ago);
  if (exact !== undefined) return ok({ at: exact, dayOnly: false });
  const { time, part, rest } = takeTime(words.replace(/^(\d{4}-\d{1,2}-\d{1,2})t(?=\d)/, '$1 '));
  const named = readDay(rest, dayOf(now, zone));
  const found = named === undefined ? undefined : resolve(named, time, part, { now, zone });
  return found === undefined ? badDate('when', text) : ok(found);
}

interface Seen {
  readonly now: Instant;
  readonly zone: string;
}

function resolve(named: NamedDay, time: WallTime | null, part: DayPart | null, seen: Seen): SaidMoment | undefined {
  const today = dayOf(seen.now, seen.zone);
  switch (named.of) {
    case 'nothing':
      return time === null ? undefined : latest([today, addDays(today, -1)], time, seen);
    case 'weekday': {
      const last = addDays(today, -((weekdayOf(today) - named.weekday + 7) % 7));
      return latest([last, addDays(last, -7)], time, seen);
    }
    case 'month-day': {
      const found = latest(yearsBack(named.monthDay, today), time, seen);
      const fits = found === undefined || named.weekday === null;
      return fits || weekdayOf(dayOf(found.at, seen.zone)) === named.weekday ? found : undefined;
    }
    case 'day': {
      const on = onDay(named.day, time, seen);
      // "this morning" stands for eight o'clock; said at six it means now, not two hours ahead.
      const begun = part !== null && instantAt(named.day, part.begins, seen.zone) <= seen.now;
      return begun && named.day === today && on.at > seen.now ? { at: seen.now, dayOnly: false } : on;
    }
  }
}

/** The moment of `time` on the first of `days` (latest first) on which it has been. */
function latest(days: readonly LocalDay[], time: WallTime | null, seen: Seen): SaidMoment | undefined {
  return days.map((of) => onDay(of, time, seen)).find(({ at }) => at <= seen.now);
}

function onDay(of: LocalDay, time: WallTime | null, { now, zone }: Seen): SaidMoment {
  if (time === null) return { at: of === dayOf(now, zone) ? now : instantAt(of, noon, zone), dayOnly: true };
  const first = instantAt(of, time, zone);
  // When the clocks go back a time comes twice; the second is meant once it has been.
  const second = plusMs(first, hourMs);
  const twice = dayOf(second, zone) === of && timeOf(second, zone) === time;
  return { at: twice && second <= now && of === dayOf(now, zone) ? second : first, dayOnly: false };
}

function yearsBack(monthDay: string, today: LocalDay): LocalDay[] {
  const thisYear = Number(today.slice(0, 4));
  return Array.from({ length: yearsToSearch + 1 }, (_, back) => parseDay(`${thisYear - back}-${monthDay}`)).filter(
    (found) => found !== undefined,
  );
}
