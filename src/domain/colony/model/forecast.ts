import { addDays, daysBetween, type LocalDay } from '../../day.ts';
import { aheadDays, type LineAhead, lineAhead, stepAhead, type TubNow } from './ahead.ts';
import { type Range, rangeOf } from './range.ts';
import { grownAhead, sellAhead, spareAhead } from './sellAhead.ts';

/** What is sold of a line from now on. */
export interface SalesPlan {
  /** Animals a week, extras included, 0 and up. */
  readonly weekly: number;
  /** Promised already, extras included: gone first. */
  readonly promised: number;
  /** Breeders held back per tub. */
  readonly holdBack: number;
  /** Whether anything is sent in the days from this one on: not in a closed window. */
  readonly isOpen: (day: LocalDay) => boolean;
}

/** A line on a day ahead; animals, over all its tubs. */
export interface ForecastDay {
  readonly day: LocalDay;
  readonly saleable: Range;
  /** Over the breeders of each tub. */
  readonly spare: Range;
  /** Share of the possible futures in which all sales up to here could be sent, 0 to 1. */
  readonly allSent: number;
}

/** What a look ahead tells at its steps. */
interface Told {
  readonly line: LineAhead;
  /** Members in which something could not be sent so far: over 0. */
  readonly missing: Float64Array;
}

/** Goes through a line's future with a plan, calling `tell` at the beginning and after each step. */
export function goAhead(
  tubs: readonly TubNow[],
  from: LocalDay,
  until: LocalDay,
  { weekly, promised, holdBack, isOpen }: SalesPlan,
  tell: (told: Told) => void,
): void {
  let line = lineAhead(tubs, from);
  const missing = sellAhead(line, promised, holdBack);
  tell({ line, missing });
  while (daysBetween(line.day, until) >= aheadDays) {
    const isSelling = isOpen(line.day);
    line = stepAhead(line);
    if (isSelling && weekly > 0) {
      sellAhead(line, (weekly * aheadDays) / 7, holdBack).forEach((short, member) => {
        missing[member] = (missing[member] ?? 0) + short;
      });
    }
    tell({ line, missing });
  }
}

/** Less than this missing is rounding, animals. */
export const hardlyMissing = 0.5;

/** Share of members in which nothing was missing. */
const sentShare = (missing: Float64Array): number =>
  missing.reduce((all, short) => all + (short < hardlyMissing ? 1 : 0), 0) / missing.length;

/**
 * A line's stock on days ahead if sales go on as planned: today and every 28 days, and the last day that a step of 4 days reaches.
 *
 * @param tubs  all tubs of the line that are counted and take part, each on the day `from`
 * @param until later than `from`; two years ahead tells little
 */
export function forecast(tubs: readonly TubNow[], from: LocalDay, until: LocalDay, plan: SalesPlan): ForecastDay[] {
  const days: ForecastDay[] = [];
  const last = addDays(from, daysBetween(from, until) - (daysBetween(from, until) % aheadDays));
  goAhead(tubs, from, until, plan, ({ line, missing }) => {
    if (daysBetween(from, line.day) % 28 !== 0 && line.day !== last) return;
    const saleable = new Float64Array(line.members);
    for (const { numbers } of line.tubs) {
      for (let member = 0; member < line.members; member++) {
        saleable[member] = (saleable[member] ?? 0) + grownAhead(numbers, line.members, member);
      }
    }
    days.push({
      day: line.day,
      saleable: rangeOf(saleable),
      spare: rangeOf(spareAhead(line, plan.holdBack)),
      allSent: sentShare(missing),
    });
  });
  return days;
}
