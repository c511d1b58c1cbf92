import type { LocalDay } from '../../day.ts';
import type { TubNow } from './ahead.ts';
import { goAhead, hardlyMissing, type SalesPlan } from './forecast.ts';
import { spareAhead } from './sellAhead.ts';

/** What sales shall leave. */
export interface SalesGoal {
  /** The day by which it counts, such as the re-opening after winter. */
  readonly on: LocalDay;
  /** Animals over the breeders of each tub that shall be there then, 0 and up. */
  readonly stock: number;
}

/** Share of the possible futures in which the goal is to be met. */
export const goalChance = 0.9;
/** Halvings of the search: to a 64th of what is surely too much. */
const halvings = 6;

/**
 * The most that may be sold of a line a week so that with 90 % probability every sale can be sent without touching the breeders, and the stock wanted
 * is there on the day of the goal. Whole animals a week, extras included, rounded down; null where even selling nothing does not reach the goal.
 *
 * @param tubs as in `forecast`
 */
export function sustainableWeekly(
  tubs: readonly TubNow[],
  from: LocalDay,
  goal: SalesGoal,
  plan: Omit<SalesPlan, 'weekly'>,
): number | null {
  const chanceWith = (weekly: number): number => goalShare(tubs, from, goal, { ...plan, weekly });
  if (tubs.length === 0 || chanceWith(0) < goalChance) return null;
  let [fine, tooMuch] = [0, 4 * tubs.length];
  while (tooMuch < 1024 * tubs.length && chanceWith(tooMuch) >= goalChance) [fine, tooMuch] = [tooMuch, 4 * tooMuch];
  for (let halving = 0; halving < halvings && tooMuch - fine > 1; halving++) {
    const middle = (fine + tooMuch) / 2;
    if (chanceWith(middle) >= goalChance) fine = middle;
    else tooMuch = middle;
  }
  return Math.floor(fine);
}

/** Share of the futures in which a plan reaches the goal. */
function goalShare(tubs: readonly TubNow[], from: LocalDay, { on, stock }: SalesGoal, plan: SalesPlan): number {
  let reached = 0;
  goAhead(tubs, from, on, plan, ({ line, missing }) => {
    const spare = spareAhead(line, plan.holdBack);
    const good = spare.filter((left, member) => left >= stock && (missing[member] ?? 0) < hardlyMissing);
    reached = good.length / line.members;
  });
  return reached;
}
