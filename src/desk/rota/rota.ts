import {
  type ChoreTick,
  type DueChore,
  daysBetween,
  type LocalDay,
  planWeek,
  type RotaTask,
} from '../../domain/index.ts';
import { type Desk, todayOf } from '../desk.ts';
import { keyOf, type RotaFacts, rotaFacts } from './facts.ts';

/** A chore of the rota: who is to do it when, and who has done it. */
export interface RotaItem extends RotaTask {
  /** Name of the partner; null: nobody is there who does it. */
  readonly partner: string | null;
  /** Litres of a water change, planned or done; null: none. */
  readonly litres: number | null;
  /** Set once it was done today. */
  readonly done: ChoreTick | null;
  /** Days that it is late, 0 or more. What comes every day is never late: yesterday's is not made up for. */
  readonly lateDays: number;
  /** A tub that it is about, by which its rack is found too; null: the business. */
  readonly tubId: number | null;
}

/** The days that are planned together: what today brings follows from the whole week. */
const weekDays = 7;

/**
 * The rota of the week from today on. It is planned as of this morning, so that nothing changes hands while the two work through it;
 * what was done today is marked, also where it was not on the rota, and does not come again before its interval.
 */
export function rota(desk: Desk): RotaItem[] {
  const facts = rotaFacts(desk);
  const { today, partners } = facts;
  const named = new Map(partners.map(({ userId, name }) => [userId, name]));
  const planned = planWeek({ due: facts.due, from: today, days: weekDays, partners });
  const items = planned.map((task): RotaItem => {
    const done = task.on === today ? (facts.doneToday.get(keyOf(task.due)) ?? null) : null;
    return {
      ...task,
      partner: task.userId === null ? null : (named.get(task.userId) ?? null),
      litres: litresOf(facts, task.due, done !== null),
      done,
      lateDays: task.on === today ? lateDays(task.due, today) : 0,
      tubId: tubIdOf(facts, task.due),
    };
  });
  const holds = ({ due, on }: RotaItem): boolean =>
    on === today || !facts.doneToday.has(keyOf(due)) || daysBetween(today, on) >= due.chore.everyDays;
  const onRota = new Set(items.filter(({ on }) => on === today).map(({ due }) => keyOf(due)));
  const extra = facts.due.filter((due) => !onRota.has(keyOf(due)));
  return [...items.filter(holds), ...extra.flatMap((due) => besides(facts, due))];
}

const lateDays = ({ chore, dueOn }: DueChore, today: LocalDay): number =>
  chore.everyDays === 1 ? 0 : Math.max(0, daysBetween(dueOn, today));

/** What is on the rota today, and what was done today besides. */
export const rotaToday = (desk: Desk): RotaItem[] => {
  const today = todayOf(desk);
  return rota(desk).filter(({ on }) => on === today);
};

function besides(facts: RotaFacts, due: DueChore): RotaItem[] {
  const done = facts.doneToday.get(keyOf(due));
  if (done === undefined) return [];
  const litres = litresOf(facts, due, true);
  return [{ due, on: facts.today, userId: null, partner: null, litres, done, lateDays: 0, tubId: tubIdOf(facts, due) }];
}

function litresOf(
  { litresPlanned, litresToday }: RotaFacts,
  { chore, target }: DueChore,
  isDone: boolean,
): number | null {
  if (chore.act !== 'change' || target.of !== 'tub') return null;
  return (isDone ? litresToday : litresPlanned).get(target.tubId) ?? null;
}

function tubIdOf({ tubs }: RotaFacts, { target }: DueChore): number | null {
  if (target.of === 'business') return null;
  return target.of === 'tub' ? target.tubId : (tubs.find(({ rack }) => rack === target.rack)?.id ?? null);
}
