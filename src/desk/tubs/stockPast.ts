import { dayOf, keptWeeks, type Line, type LocalDay, type Tub } from '../../domain/index.ts';
import { colonyNow } from '../colony/colony.ts';
import { businessOf, type Desk } from '../desk.ts';
import { stockOf } from './stock.ts';

/** Saleable animals of a line on a day, the likeliest number. */
export interface StockOn {
  readonly day: LocalDay;
  readonly saleable: number;
}

/** The stock of a line week by week, oldest first; a week in which none of its tubs was counted yet is left out. */
export interface StockWeeks {
  readonly line: Line;
  readonly weeks: readonly StockOn[];
}

/**
 * The stock of every line on days a week apart and today, by what the facts of today say of those days. Tubs stand under the line that they have
 * today; one that was not counted yet, or was retired by then, adds nothing.
 */
export function stockWeeks(desk: Desk): StockWeeks[] {
  const business = businessOf(desk);
  const today = dayOf(desk.now(), business.zone);
  const past = keptWeeks(today);
  return desk.store.tubs.lines().map((line) => {
    const tubs = desk.store.tubs.tubs().filter(({ lineId }) => lineId === line.id);
    const own = tubs.map((tub) => ({ tub, medians: mediansOf(desk, tub) }));
    const weeks = past.map((day) => ({ day, saleable: sumOn(own, day, business.zone) }));
    const now = stockOf(desk, line);
    const last = now.uncounted.length === now.tubs.length ? [] : [{ day: today, saleable: now.saleable.median }];
    return { line, weeks: [...weeks.filter((week): week is StockOn => week.saleable !== null), ...last] };
  });
}

/** The likeliest number of a tub's saleable animals on the days of its snapshots, brought up to date first. */
function mediansOf(desk: Desk, tub: Tub): ReadonlyMap<LocalDay, number> {
  if (tub.retired === null) colonyNow(desk, businessOf(desk), tub);
  return new Map(desk.store.colonies.medians(tub.id).map(({ day, saleable }) => [day, saleable]));
}

function sumOn(
  tubs: readonly { readonly tub: Tub; readonly medians: ReadonlyMap<LocalDay, number> }[],
  day: LocalDay,
  zone: string,
): number | null {
  const known = tubs.flatMap(({ tub, medians }) => {
    const wasInUse = tub.retired === null || dayOf(tub.retired.at, zone) > day;
    const saleable = wasInUse ? medians.get(day) : undefined;
    return saleable === undefined ? [] : [saleable];
  });
  return known.length === 0 ? null : Math.round(known.reduce((sum, saleable) => sum + saleable, 0));
}
