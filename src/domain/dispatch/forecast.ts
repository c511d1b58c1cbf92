import { daysBetween, hourMs, type Instant, type LocalDay, msOf } from '../day.ts';
import type { Weather } from '../sales/sale.ts';
import type { DispatchReason } from './reason.ts';

/** Days ahead within which a forecast must have been looked at. Common practice, no source. */
export const forecastNeededWithinDays = 2;

/** Age above which a forecast is looked at again, hours. Common practice, no source. */
export const forecastKeepsHours = 24;

/** What a forecast is judged by. */
export interface ForecastQuestion {
  /** The day of dispatch. */
  readonly day: LocalDay;
  /** The last day on which the parcel may still be on its way. */
  readonly lastDay: LocalDay;
  readonly today: LocalDay;
  readonly now: Instant;
  /** Known forecasts for places on the way; those for other days are left aside. */
  readonly weather: readonly Weather[];
  /** Bounds of the air on the way, °C, themselves allowed. */
  readonly minTempC: number;
  readonly maxTempC: number;
}

/** The reasons that the air on the way gives: too cold, too hot, not known, not known lately. */
export function forecastReasons(question: ForecastQuestion): DispatchReason[] {
  const { day, today, now, minTempC, maxTempC } = question;
  const latest = latestOnTheWay(question);
  const soon = daysBetween(today, day) <= forecastNeededWithinDays;
  if (latest.length === 0) return [{ kind: soon ? 'forecast-missing' : 'forecast-not-looked-at', day }];
  return latest.flatMap((known): DispatchReason[] => {
    const { area, lowC, highC, at } = known;
    const ageHours = (msOf(now) - msOf(at)) / hourMs;
    const reasons: DispatchReason[] = [];
    if (lowC < minTempC) reasons.push({ kind: 'too-cold', day: known.day, area, lowC, minTempC, at });
    if (highC > maxTempC) reasons.push({ kind: 'too-hot', day: known.day, area, highC, maxTempC, at });
    if (soon && ageHours > forecastKeepsHours) {
      reasons.push({ kind: 'forecast-old', day: known.day, area, at, ageHours });
    }
    return reasons;
  });
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
    const key = `${known.day} ${known.area.trim().toLowerCase()}`;
    const other = latest.get(key);
    if (other === undefined || other.at < known.at) latest.set(key, known);
  }
  return [...latest.values()];
}
