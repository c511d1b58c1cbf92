import {
  addDays,
  type ChoreTick,
  type DoneWork,
  type DueChore,
  daysBetween,
  instantAt,
  type LocalDay,
  placeKey,
  placeOf,
  planWeek,
  type RotaPlan,
  type RotaTask,
  type WallTime,
  workDone,
} from '../../domain/index.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';
import { allChores } from './chores.ts';
import { keyOf, type RotaFacts, rotaFacts } from './facts.ts';

/** A chore of the rota: who is to do it when, and who has done it. */
export interface RotaItem extends RotaTask {
  /** Name of the partner; null: nobody is there who does it. */
  readonly partner: string | null;
  /** Litres of a water change, planned or done; null: none. */
  readonly litres: number | null;
  /** Set once it was done today. */
  readonly done: ChoreTick | null;
  /** Days that it is late, 0 or more. What comes every day is never late: yesterday's is not made up for; nor is a hatch. */
  readonly lateDays: number;
  /** A tub that it is about, by which its rack is found too; null: the business. */
  readonly tubId: number | null;
}

/** The days that are shown. */
const weekDays = 7;
/** The days that are planned together: what today brings follows from them all. So many days back count in the shares, too. */
const planDays = 14;
const midnight = '00:00' as WallTime;

function planOf(desk: Desk, { today, due, partners, tubs }: RotaFacts): RotaPlan {
  const told = desk.store.rota.told().map(({ on, userId, ...place }) => ({ key: placeKey(place), on, userId }));
  return planWeek({ due, from: today, days: planDays, partners, done: doneBefore(desk, today, tubs), told });
}

/** Chore minutes done in the fortnight up to this morning, by whom. */
function doneBefore(desk: Desk, today: LocalDay, tubs: RotaFacts['tubs']): DoneWork[] {
  const { zone } = businessOf(desk);
  const from = instantAt(addDays(today, -planDays), midnight, zone);
  const doings = desk.store.rota.doings(from, instantAt(today, midnight, zone));
  return workDone(doings, allChores(desk), tubs, zone);
}

/** Keeps the rota as it is now as the one that was told: a later one differs from it only where there is a reason. */
export function tellRota(desk: Desk): void {
  const { tasks } = planOf(desk, rotaFacts(desk));
  const rows = tasks.map(({ due, on, userId }) => ({ ...placeOf(due.chore, due.target), on, userId }));
  desk.store.write(() => desk.store.rota.tell(rows));
}

/**
 * The rota of the week from today on. It is planned as of this morning, so that nothing changes hands while the two work through it;
 * what was done today is marked, also where it was not on the rota, and does not come again before its interval.
 */
export function rota(desk: Desk): RotaItem[] {
  const facts = rotaFacts(desk);
  const { today, partners } = facts;
  const named = new Map(partners.map(({ userId, name }) => [userId, name]));
  const { tasks } = planOf(desk, facts);
  const shown = tasks.filter(({ on }) => daysBetween(today, on) < weekDays);
  const items = shown.map((task): RotaItem => {
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
    on === today || !facts.doneToday.has(keyOf(due)) || daysBetween(today, on) >= (due.everyDays ?? weekDays);
  const onRota = new Set(items.filter(({ on }) => on === today).map(({ due }) => keyOf(due)));
  const extra = facts.due.filter((due) => !onRota.has(keyOf(due)));
  return [...items.filter(holds), ...extra.flatMap((due) => besides(facts, due))];
}

const lateDays = ({ chore, everyDays, dueOn }: DueChore, today: LocalDay): number =>
  everyDays === 1 || chore.dependsOn === 'hatch' ? 0 : Math.max(0, daysBetween(dueOn, today));

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
