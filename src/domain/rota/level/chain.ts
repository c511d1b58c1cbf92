import { daysBetween, type LocalDay } from '../../day.ts';
import type { ChoreGround, DueChore } from '../chore.ts';

/** The doings of a chore in one place within a plan, as the days on which they can fall. Days are counted from the first planned one, 0. */
export interface Chain {
  readonly due: DueChore;
  readonly minutes: number;
  /** Days on which the first doing can be, ascending. */
  readonly starts: readonly number[];
  /** By the day of a doing, the days on which the next can be, ascending; none: no other falls into the plan. */
  readonly next: readonly (readonly number[])[];
}

/** How badly a day suits a chore: 0 well, more the worse. */
export type Misfit = (due: DueChore, at: number) => number;

const hangsOnEvent: readonly ChoreGround[] = ['claim', 'trouble'];

/**
 * Days by which a chore may come early: a seventh of its interval (our choice). A water change never does, as two within its interval swap
 * too much at once; nor does what hangs on an event, or was put off.
 */
export function mayComeEarlier({ chore, everyDays }: Pick<DueChore, 'chore' | 'everyDays'>): number {
  const isBound = chore.act === 'change' || everyDays === null || hangsOnEvent.includes(chore.dependsOn);
  return isBound ? 0 : Math.floor(everyDays / 7);
}

/**
 * The chain of a chore that falls due within the plan; null where it does not. The first doing is no later than it is due (what is late is
 * for today), each next one no more than an interval after the one before. Of all such days only those are left that suit the chore as
 * well as any can.
 */
export function chainOf(due: DueChore, from: LocalDay, days: number, misfit: Misfit): Chain | null {
  const dueIn = daysBetween(from, due.dueOn);
  const last = Math.min(days - 1, due.until === null ? days - 1 : daysBetween(from, due.until));
  const latest = Math.max(0, dueIn);
  if (latest > last) return null;
  const early = mayComeEarlier(due);
  const earliest = due.later === null ? Math.max(0, dueIn - early) : latest;
  const cost = new Array<number>(days).fill(0);
  const next: number[][] = Array.from({ length: days }, () => []);
  for (let at = last; at >= earliest; at--) {
    const again = at + (due.everyDays ?? days);
    const choice = again > last ? [] : bestOf(cost, again - early, again);
    next[at] = choice;
    cost[at] = misfit(due, at) + (choice[0] === undefined ? 0 : (cost[choice[0]] ?? 0));
  }
  return { due, minutes: due.chore.minutes, starts: bestOf(cost, earliest, latest), next };
}

/** Days from `first` to `last` that cost least. */
function bestOf(cost: readonly number[], first: number, last: number): number[] {
  let least = Number.POSITIVE_INFINITY;
  let best: number[] = [];
  for (let at = first; at <= last; at++) {
    const here = cost[at] ?? 0;
    if (here < least) {
      least = here;
      best = [];
    }
    if (here === least) best.push(at);
  }
  return best;
}

/** Whether a chain can only fall on the same days. */
export const isFixed = ({ starts, next }: Chain): boolean => {
  let at = starts;
  while (at.length === 1 && at[0] !== undefined) at = next[at[0]] ?? [];
  return at.length === 0;
};

/** The days of a chain whose costs add up to least; of equal ones the later, so that nothing is done earlier than there is a reason for. */
export function cheapestPath({ starts, next }: Chain, cost: (at: number) => number): number[] {
  const rest = new Float64Array(next.length);
  const first = starts[0] ?? next.length;
  for (let at = next.length - 1; at >= first; at--) {
    const step = cheapest(next[at] ?? [], rest);
    rest[at] = cost(at) + (step === undefined ? 0 : (rest[step] ?? 0));
  }
  const path: number[] = [];
  for (let at = cheapest(starts, rest); at !== undefined; at = cheapest(next[at] ?? [], rest)) path.push(at);
  return path;
}

function cheapest(days: readonly number[], rest: Float64Array): number | undefined {
  let best: number | undefined;
  for (const at of days) if (best === undefined || (rest[at] ?? 0) <= (rest[best] ?? 0)) best = at;
  return best;
}
