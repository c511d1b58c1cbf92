import { addDays, daysBetween, hourMs, type Instant, type LocalDay, msOf } from '../day.ts';
import { folded } from '../nearest.ts';
import type { Weather } from '../sales/sale.ts';
import type { DispatchReason, ForecastGap } from './reason.ts';

/** Days ahead within which a forecast must have been looked at. Common practice, no source. */
export const forecastNeededWithinDays = 2;

/** Age above which a forecast is looked at again, hours. Common practice, no source. */
export const forecastKeepsHours = 24;

/** The places where a parcel's way begins and ends, by the names that forecasts are kept under. */
export interface Ends {
  readonly from: string;
  /** Null: nobody has said where it goes. */
  readonly to: string | null;
}

/** What a forecast is judged by. */
export interface ForecastQuestion {
  /** The day of dispatch. */
  readonly day: LocalDay;
  /** The day on which the parcel is delivered when it is on time. */
  readonly deliveredOn: LocalDay;
  /** The last day on which the parcel may still be on its way. */
  readonly lastDay: LocalDay;
  readonly ends: Ends;
  readonly today: LocalDay;
  readonly now: Instant;
  /** Known forecasts for places on the way; those for other days are left aside. */
  readonly weather: readonly Weather[];
  /** Bounds of the air on the way, °C, themselves allowed. */
  readonly minTempC: number;
  readonly maxTempC: number;
}

/** The reasons that the air on the way gives: too cold, too hot, not known, not known in part, not known lately. */
export function forecastReasons(question: ForecastQuestion): DispatchReason[] {
  const { day, today, now, minTempC, maxTempC } = question;
  const latest = latestOnTheWay(question);
  const soon = daysBetween(today, day) <= forecastNeededWithinDays;
  const missing = soon ? forecastGaps(question, latest) : [];
  if (latest.length === 0) {
    return [soon ? { kind: 'forecast-missing', day, missing } : { kind: 'forecast-not-looked-at', day }];
  }
  const reasons = latest.flatMap((known): DispatchReason[] => {
    const { area, lowC, highC, at } = known;
    const ageHours = (msOf(now) - msOf(at)) / hourMs;
    const found: DispatchReason[] = [];
    if (lowC < minTempC) found.push({ kind: 'too-cold', day: known.day, area, lowC, minTempC, at });
    if (highC > maxTempC) found.push({ kind: 'too-hot', day: known.day, area, highC, maxTempC, at });
    if (soon && ageHours > forecastKeepsHours) found.push({ kind: 'forecast-old', day: known.day, area, at, ageHours });
    return found;
  });
  return missing.length === 0 ? reasons : [...reasons, { kind: 'forecast-gaps', day, missing }];
}

/** The newest forecast of each place and day on the way. */
export function latestOnTheWay({
  day,
  lastDay,
  weather,
}: Pick<ForecastQuestion, 'day' | 'lastDay' | 'weather'>): Weather[] {
  const latest = new Map<string, Weather>();
  for (const known of weather) {
    if (known.day < day || known.day > lastDay) continue;
    const key = `${known.day} ${folded(known.area)}`;
    const other = latest.get(key);
    if (other === undefined || other.at < known.at) latest.set(key, known);
  }
  return [...latest.values()];
}

/**
 * What must be known of a parcel's way and is not: the place that it leaves on its day, the place that it goes to on the day of delivery,
 * and of each day between either place, as nobody knows where it lies by night. The days by which it may be late are judged where they are
 * known and not asked for: common practice, no source.
 */
function forecastGaps(
  { day, deliveredOn, ends }: Pick<ForecastQuestion, 'day' | 'deliveredOn' | 'ends'>,
  known: readonly Weather[],
): ForecastGap[] {
  const isKnown = (area: string | null, on: LocalDay): boolean =>
    area !== null && known.some((each) => each.day === on && folded(each.area) === folded(area));
  const gaps: ForecastGap[] = isKnown(ends.from, day) ? [] : [{ area: ends.from, day }];
  for (let on = addDays(day, 1); on < deliveredOn; on = addDays(on, 1)) {
    if (!isKnown(ends.from, on) && !isKnown(ends.to, on)) gaps.push({ area: ends.to ?? ends.from, day: on });
  }
  return isKnown(ends.to, deliveredOn) ? gaps : [...gaps, { area: ends.to, day: deliveredOn }];
}

/** The air on a parcel's way as far as it is known, °C. */
export interface KnownAir {
  /** The coldest low and the hottest high. */
  readonly lowC: number;
  readonly highC: number;
  /** When the oldest of the forecasts was made or typed. */
  readonly at: Instant;
}

/** The air on the way by the newest forecast of each place and day; null: none is known. */
export function airOnTheWay(question: Pick<ForecastQuestion, 'day' | 'lastDay' | 'weather'>): KnownAir | null {
  return worstAir(latestOnTheWay(question));
}

/** The coldest, the hottest and the oldest of several; null: of none. */
export function worstAir(known: readonly KnownAir[]): KnownAir | null {
  const [first, ...others] = known;
  if (first === undefined) return null;
  return others.reduce<KnownAir>(
    (air, { lowC, highC, at }) => ({
      lowC: Math.min(air.lowC, lowC),
      highC: Math.max(air.highC, highC),
      at: at < air.at ? at : air.at,
    }),
    { lowC: first.lowC, highC: first.highC, at: first.at },
  );
}
