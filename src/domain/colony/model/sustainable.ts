import { addDays, type LocalDay } from '../../day.ts';
import { aheadDays, goAhead, type Outlook, outlook, type SalesAhead, type TubNow } from './ahead.ts';
import { hardlyMissing } from './forecast.ts';
import { quantilesOf } from './range.ts';
import { spareAhead } from './sellAhead.ts';

/** What sales shall leave. */
export interface SalesGoal {
  /** The day by which it counts, such as the re-opening after winter. */
  readonly on: LocalDay;
  /** Animals over the breeders of each tub that shall be there then, 0 and up. */
  readonly stock: number;
}

/** Share of the possible futures in which the goal is to be reached. */
const goalChance = 0.9;
/** Futures that are gone through: each narrows what a member bears to a half, or doubles it. */
const runs = 7;

/**
 * The most that may be sold of a line a week so that with 90 % probability every sale can be sent without touching the breeders, and the stock wanted
 * is there on the day of the goal: the lower 10 % quantile of what each member bears. Whole animals a week, extras included, rounded down; null where
 * even selling nothing more does not reach the goal, or where nothing is sent before its day.
 *
 * @param tubs, future as in `forecast`
 */
export function sustainableWeekly(
  tubs: readonly TubNow[],
  from: LocalDay,
  goal: SalesGoal,
  sales: SalesAhead,
  future: Outlook = outlook(tubs, from, goal.on),
): number | null {
  const { members } = future;
  const openSteps = future.days.filter((day) => sales.isOpen(addDays(day, -aheadDays))).length;
  if (openSteps === 0) return null;
  const unsold = runOf(future, new Float64Array(members), goal, sales);
  if (unsold.reaches.filter((reaches) => reaches === 1).length < goalChance * members) return null;
  const fine = new Float64Array(members);
  const tooMuch = new Float64Array(members).fill(Number.POSITIVE_INFINITY);
  const weeks = (openSteps * aheadDays) / 7;
  let weekly = unsold.left.map((left) => Math.max(1, left - goal.stock) / weeks);
  for (let run = 0; run < runs; run++) {
    const { reaches } = runOf(future, weekly, goal, sales);
    weekly = weekly.map((tried, member) => {
      if (reaches[member] === 1) fine[member] = tried;
      else tooMuch[member] = tried;
      const [low, high] = [fine[member] ?? 0, tooMuch[member] ?? 0];
      return high === Number.POSITIVE_INFINITY ? 2 * low : (low + high) / 2;
    });
  }
  const bears = fine.map((most, member) => (unsold.reaches[member] === 1 ? most : 0));
  return Math.floor(quantilesOf(bears, [1 - goalChance])[0] ?? 0);
}

/** Goes through the future once: what is left over the breeders at the end, and whether (1) the goal is reached, by member. */
function runOf(
  future: Outlook,
  weekly: Float64Array,
  { stock }: SalesGoal,
  sales: SalesAhead,
): { left: Float64Array; reaches: Uint8Array } {
  const last = future.days.at(-1) ?? future.from;
  const reaches = new Uint8Array(future.members);
  let left = new Float64Array(future.members);
  goAhead(future, weekly, sales, (day, line, missing) => {
    if (day !== last) return;
    left = Float64Array.from(spareAhead(line, sales.holdBack));
    left.forEach((animals, member) => {
      reaches[member] = Number(animals >= stock && (missing[member] ?? 0) < hardlyMissing);
    });
  });
  return { left, reaches };
}
