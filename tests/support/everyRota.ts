import {
  addDays,
  type DueChore,
  daysBetween,
  isAway,
  type LocalDay,
  neverDoes,
  type Partner,
} from '../../src/domain/index.ts';

/** The rules of the rota written out anew and every answer tried: what the planner is held against on small cases. */
export interface SmallCase {
  readonly due: readonly DueChore[];
  readonly from: LocalDay;
  readonly days: number;
  readonly partners: readonly Partner[];
}

/** Every list of days on which a chore can be done. */
export function dayLists(one: DueChore, { from, days }: Pick<SmallCase, 'from' | 'days'>): number[][] {
  const every = one.everyDays ?? days;
  const early = one.chore.act === 'change' || one.everyDays === null ? 0 : Math.floor(one.everyDays / 7);
  const grow = (list: readonly number[], first: number, last: number): number[][] => {
    if (last >= days) return [[...list]];
    const lists: number[][] = [];
    for (let at = Math.max(0, first); at <= last; at++)
      lists.push(...grow([...list, at], at + every - early, at + every));
    return lists;
  };
  const dueIn = daysBetween(from, one.dueOn);
  return grow([], one.later === null ? dueIn - early : dueIn, Math.max(0, dueIn)).filter((list) => list.length > 0);
}

/** Whether anybody is there on a day who does a chore. */
const isCovered = (one: DueChore, at: number, { from, partners }: SmallCase): boolean =>
  partners.some((partner) => !isAway(partner, addDays(from, at)) && !neverDoes(partner, one.chore.name));

/** The lightest heaviest day of all layings in which each chore is as seldom without anybody as it can be, minutes. */
export function lightestPeak(small: SmallCase): number {
  const choices = small.due.map((one) => {
    const lists = dayLists(one, small);
    const alone = lists.map((list) => list.filter((at) => !isCovered(one, at, small)).length);
    const least = Math.min(...alone);
    return { minutes: one.chore.minutes, lists: lists.filter((_, nth) => alone[nth] === least) };
  });
  const load = new Array<number>(small.days).fill(0);
  const lightest = (nth: number): number => {
    const choice = choices[nth];
    if (choice === undefined) return Math.max(...load);
    if (choice.lists.length === 0) return lightest(nth + 1);
    let best = Number.POSITIVE_INFINITY;
    for (const list of choice.lists) {
      for (const at of list) load[at] = (load[at] ?? 0) + choice.minutes;
      best = Math.min(best, lightest(nth + 1));
      for (const at of list) load[at] = (load[at] ?? 0) - choice.minutes;
    }
    return best;
  };
  return lightest(0);
}

/** The least distance of the partner who is furthest from what they owe, of all ways to give the pieces away, minutes. */
export function fairest(
  pieces: readonly { readonly minutes: number; readonly able: readonly number[] }[],
  owed: readonly number[],
): number {
  const given = owed.map(() => 0);
  const best = (nth: number): number => {
    const piece = pieces[nth];
    if (piece === undefined) return Math.max(...owed.map((minutes, place) => Math.abs((given[place] ?? 0) - minutes)));
    let least = Number.POSITIVE_INFINITY;
    for (const place of piece.able) {
      given[place] = (given[place] ?? 0) + piece.minutes;
      least = Math.min(least, best(nth + 1));
      given[place] = (given[place] ?? 0) - piece.minutes;
    }
    return least;
  };
  return best(0);
}
