import {
  addDays,
  dayOf,
  type Instant,
  instantAt,
  type Line,
  type LocalDay,
  type Logged,
  saleableNow,
  type Tub,
  timeOf,
} from '../domain/index.ts';
import { businessOf, type Desk } from './desk.ts';

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
/** Later than whatever was logged at the same moment. */
const lastEntry = Number.MAX_SAFE_INTEGER;

/**
 * Saleable animals that a line had at a moment in the past, by the rule of today's stock: in each tub the last count up to then, and
 * what left or came between. Told by what the books know now, so that what was logged late counts. Tubs stand under the line that they
 * have today; one that was not counted yet adds nothing. Null: none of them was counted yet.
 */
export function stockPast(desk: Desk, line: Line, at: Instant): number | null {
  return lineAt(
    desk,
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
      saleable: lineAt(desk, tubs, day === today ? now : instantAt(day, timeOf(now, zone), zone)),
    }));
    return { line, weeks: weeks.filter((week): week is StockOn => week.saleable !== null) };
  });
}

const tubsOf = (desk: Desk, line: Line): Tub[] => desk.store.tubs.tubs().filter(({ lineId }) => lineId === line.id);

/** All that happened to the saleable animals of a tub, parcels apart. */
const pastOf = ({ store: { animals } }: Desk, tub: Tub) => ({
  tub,
  counts: animals.counts(tub.id, beforeAll),
  losses: animals.losses(tub.id, beforeAll),
  moves: animals.moves(tub.id, beforeAll).filter(({ stage }) => stage === 'saleable'),
});

type TubPast = ReturnType<typeof pastOf>;

function lineAt(desk: Desk, tubs: readonly TubPast[], at: Instant): number | null {
  const inUse = tubs.filter(({ tub }) => tub.retired === null || tub.retired.at > at);
  const known = inUse.map((past) => tubAt(desk, past, at)).filter((saleable) => saleable !== null);
  return known.length === 0 ? null : known.reduce((sum, saleable) => sum + saleable, 0);
}

function tubAt(desk: Desk, { tub, counts, losses, moves }: TubPast, at: Instant): number | null {
  const count = counts.findLast((counted) => counted.at <= at);
  if (count === undefined) return null;
  const isBetween = (fact: Logged): boolean =>
    fact.at <= at && (fact.at > count.at || (fact.at === count.at && fact.entryId > count.entryId));
  const sum = (facts: readonly (Logged & { readonly number: number })[]): number =>
    facts.filter(isBetween).reduce((total, { number }) => total + number, 0);
  const { sentSince } = desk.store.promises;
  return saleableNow(count.saleable, {
    sold: sentSince(tub.id, count) - sentSince(tub.id, { at, entryId: lastEntry }),
    lost: sum(losses),
    movedIn: sum(moves.filter(({ toTubId }) => toTubId === tub.id)),
    movedOut: sum(moves.filter(({ fromTubId }) => fromTubId === tub.id)),
  });
}
