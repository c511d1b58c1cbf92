import {
  addDays,
  dayOf,
  type Instant,
  instantAt,
  type Line,
  type LocalDay,
  saleableBy,
  type Tub,
  timeOf,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { stepsSince } from './stock.ts';

/** Saleable animals of a line on a day that is past, by the books. */
export interface StockOn {
  readonly day: LocalDay;
  readonly saleable: number;
}

/** The stock of a line week by week, oldest first; a week in which none of its tubs was counted yet is left out. */
export interface StockWeeks {
  readonly line: Line;
  readonly weeks: readonly StockOn[];
}

const weeksBack = 12;
const beforeAll = '' as Instant;

/**
 * Saleable animals that a line had at a moment in the past, by the rule of today's stock: in each tub the last count up to then, and
 * what left or came between. Told by what the books know now, so that what was logged late counts. Tubs stand under the line that they
 * have today; one that was not counted yet adds nothing. Null: none of them was counted yet.
 */
export function stockPast(desk: Desk, line: Line, at: Instant): number | null {
  return lineAt(
    tubsOf(desk, line).map((tub) => pastOf(desk, tub)),
    at,
  );
}

/** The stock of every line today and on each of the same weekdays of the twelve weeks before, at this time of day. */
export function stockWeeks(desk: Desk): StockWeeks[] {
  const { zone } = businessOf(desk);
  const now = desk.now();
  const today = dayOf(now, zone);
  const days = Array.from({ length: weeksBack + 1 }, (_, index) => addDays(today, -7 * (weeksBack - index)));
  return desk.store.tubs.lines().map((line) => {
    const tubs = tubsOf(desk, line).map((tub) => pastOf(desk, tub));
    const weeks = days.map((day) => ({
      day,
      saleable: lineAt(tubs, day === today ? now : instantAt(day, timeOf(now, zone), zone)),
    }));
    return { line, weeks: weeks.filter((week): week is StockOn => week.saleable !== null) };
  });
}

const tubsOf = (desk: Desk, line: Line): Tub[] => desk.store.tubs.tubs().filter(({ lineId }) => lineId === line.id);

/** All that happened to the saleable animals of a tub. */
const pastOf = (desk: Desk, tub: Tub) => ({
  tub,
  counts: desk.store.animals.counts(tub.id, beforeAll),
  steps: stepsSince(desk, tub.id, beforeAll),
});

type TubPast = ReturnType<typeof pastOf>;

function lineAt(tubs: readonly TubPast[], at: Instant): number | null {
  const inUse = tubs.filter(({ tub }) => tub.retired === null || tub.retired.at > at);
  const known = inUse.flatMap(({ counts, steps }) => {
    const count = counts.findLast((counted) => counted.at <= at);
    return count === undefined ? [] : [saleableBy(count, steps, at)];
  });
  return known.length === 0 ? null : known.reduce((sum, saleable) => sum + saleable, 0);
}
