import { daysBetween, type LocalDay } from '../day.ts';
import type { Chore, DueChore } from './chore.ts';

/** One doing of a chore on a planned day. */
export interface Levelled {
  readonly due: DueChore;
  /** Days from the first planned one, from 0. */
  readonly at: number;
  /** Not the first doing within the plan. */
  readonly again: boolean;
}

/**
 * Puts each doing on a day, none later than it falls due (what is late comes first). A chore moves to an emptier day before its own
 * where its day is heavier than the mean, by at most a seventh of its interval. Greedy: one chore at a time, in the order of due days.
 */
export function level(due: readonly DueChore[], from: LocalDay, days: number): Levelled[] {
  const dayIndex = ({ dueOn }: DueChore): number => Math.max(0, daysBetween(from, dueOn));
  const mean = meanMinutes(due, dayIndex, days);
  const load = new Array<number>(days).fill(0);
  const waiting: Omit<Levelled, 'at'>[][] = Array.from({ length: days }, () => []);
  for (const one of due) waiting[dayIndex(one)]?.push({ due: one, again: false });
  const levelled: Levelled[] = [];
  for (const [index, here] of waiting.entries()) {
    here.sort((a, b) => b.due.chore.minutes - a.due.chore.minutes);
    for (const one of here) {
      const { chore, later } = one.due;
      const earliest = Math.max(0, index - (later === null ? mayComeEarlier(chore) : 0));
      const at = (load[index] ?? 0) + chore.minutes <= mean ? index : emptiest(load, earliest, index);
      load[at] = (load[at] ?? 0) + chore.minutes;
      levelled.push({ ...one, at });
      waiting[at + chore.everyDays]?.push({ due: one.due, again: true });
    }
  }
  return levelled;
}

/** Days by which a chore may come early. A water change never does: two within its interval swap too much at once. */
const mayComeEarlier = ({ act, everyDays }: Chore): number => (act === 'change' ? 0 : Math.floor(everyDays / 7));

/** Minutes of a day if all days were alike. */
function meanMinutes(due: readonly DueChore[], dayIndex: (due: DueChore) => number, days: number): number {
  const total = due.reduce((sum, one) => {
    const left = days - dayIndex(one);
    return left <= 0 ? sum : sum + Math.ceil(left / one.chore.everyDays) * one.chore.minutes;
  }, 0);
  return total / days;
}

/** The day with the fewest minutes from `earliest` to `latest`; of equal ones the last. */
function emptiest(load: readonly number[], earliest: number, latest: number): number {
  let best = latest;
  for (let index = latest - 1; index >= earliest; index--) if ((load[index] ?? 0) < (load[best] ?? 0)) best = index;
  return best;
}
