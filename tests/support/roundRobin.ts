import {
  addDays,
  type DueChore,
  daysBetween,
  isAway,
  type LocalDay,
  neverDoes,
  type Partner,
  type RotaTask,
} from '../../src/domain/index.ts';

/**
 * The rota that people make without thinking: each chore on the day it is due, partners in turn down the list, whoever is away or never does
 * it passed over.
 */
export function roundRobin(
  due: readonly DueChore[],
  from: LocalDay,
  days: number,
  partners: readonly Partner[],
): RotaTask[] {
  let turn = 0;
  const next = (chore: DueChore['chore'], on: LocalDay): string | null => {
    for (let asked = 0; asked < partners.length; asked++) {
      const partner = partners[turn % partners.length];
      turn += 1;
      if (partner !== undefined && !isAway(partner, on) && !neverDoes(partner, chore.name)) return partner.userId;
    }
    return null;
  };
  return Array.from({ length: days }, (_, at) => addDays(from, at)).flatMap((on, at) =>
    due.flatMap((one) => {
      const first = Math.max(0, daysBetween(from, one.dueOn));
      const every = one.everyDays ?? days;
      return at < first || (at - first) % every !== 0 ? [] : [{ due: one, on, userId: next(one.chore, on) }];
    }),
  );
}
