import { daysBetween, type LocalDay } from '../../day.ts';
import { goAhead, type Outlook, outlook, type SalesAhead, type TubNow } from './ahead.ts';
import { type Range, rangeOf } from './range.ts';
import { spareAhead, sumAhead } from './sellAhead.ts';

/** A line on a day ahead; animals, over all its tubs. */
export interface ForecastDay {
  readonly day: LocalDay;
  readonly saleable: Range;
  /** Over the breeders of each tub. */
  readonly spare: Range;
  /** Share of the possible futures in which all sales up to here could be sent, 0 to 1. */
  readonly allSent: number;
}

/** Less than this missing is rounding, animals. */
export const hardlyMissing = 0.5;
/** Days between two of a forecast. */
const everyDays = 28;

/**
 * A line's stock ahead if so many are sold a week: today, every four weeks, and the last day up to `until` that a step of 4 days ends on.
 *
 * @param tubs   all tubs of the line that are counted and take part, one at least, each with its colony on the day `from`
 * @param weekly animals a week, extras included, 0 and up
 * @param future of these tubs over these days, where it is open already
 */
export function forecast(
  tubs: readonly TubNow[],
  from: LocalDay,
  until: LocalDay,
  weekly: number,
  sales: SalesAhead,
  future: Outlook = outlook(tubs, from, until),
): ForecastDay[] {
  const last = future.days.at(-1) ?? from;
  const days: ForecastDay[] = [];
  goAhead(future, new Float64Array(future.members).fill(weekly), sales, (day, line, missing) => {
    if (day !== last && daysBetween(from, day) % everyDays !== 0) return;
    days.push({
      day,
      saleable: rangeOf(sumAhead(line, (saleable) => saleable)),
      spare: rangeOf(spareAhead(line, sales.holdBack)),
      allSent: missing.filter((short) => short < hardlyMissing).length / missing.length,
    });
  });
  return days;
}
