import {
  addDays,
  type Change,
  type Chore,
  type ChoreAct,
  type ChoreTick,
  type DueChore,
  dayOf,
  dueChores,
  firstDueOn,
  type Instant,
  instantAt,
  type LastActs,
  type LocalDay,
  type Partner,
  placeKey,
  placeOf,
  type Tub,
  type WallTime,
  type WaterValues,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { changePlans } from '../water/changePlan.ts';
import { chores as choresOn } from './chores.ts';
import { choreFacts } from './grounds.ts';

const midnight = '00:00' as WallTime;

/** What the rota follows from. */
export interface RotaFacts {
  readonly today: LocalDay;
  readonly partners: readonly Partner[];
  /** Tubs in use. */
  readonly tubs: readonly Tub[];
  /** As of the beginning of today. */
  readonly due: readonly DueChore[];
  readonly doneToday: ReadonlyMap<string, ChoreTick>;
  readonly litresPlanned: ReadonlyMap<number, number>;
  readonly litresToday: ReadonlyMap<number, number>;
}

/** One text per chore and place. */
export const keyOf = ({ chore, target }: DueChore): string => placeKey(placeOf(chore, target));

/** Acts of a tub that tick chores: the last before this morning, and all since, oldest first. */
type Acts = Readonly<Record<Exclude<ChoreAct, 'own'>, readonly ChoreTick[]>>;

/**
 * Reads everything that the rota follows from.
 * @param only the one chore that is asked about: spares the others
 */
export function rotaFacts(desk: Desk, only?: Chore): RotaFacts {
  const { chores: store, settings } = desk.store;
  const { zone, changeIntervalDays } = businessOf(desk);
  const today = dayOf(desk.now(), zone);
  const morning = instantAt(today, midnight, zone);
  const tubs = tubsInUse(desk);
  const changes = new Map(
    tubs.map(({ id }) => {
      const { water } = desk.store;
      return [id, [...listOf(water.latestChange(id, morning)), ...water.changes(id, morning)]];
    }),
  );
  const acts = new Map(tubs.map((tub) => [tub.id, actsOf(desk, tub, changes.get(tub.id) ?? [], morning)]));
  const chores = choresOn(desk).filter(({ id }) => only === undefined || id === only.id);
  const hasChanges = chores.some(({ act, off }) => act === 'change' && !off);
  const plans = new Map((hasChanges ? changePlans(desk) : []).map(({ tub, plan }) => [tub.id, plan]));

  const dueOnOf = (tub: Tub): LocalDay => {
    const own = changes.get(tub.id) ?? [];
    const wasChangedToday = own.some(({ at }) => at >= morning);
    const plan = plans.get(tub.id);
    if (plan !== undefined && !wasChangedToday) return plan.dueOn;
    const before = own.findLast(({ at }) => at < morning);
    const byInterval =
      before === undefined
        ? firstDueOn(dayOf(tub.addedAt, zone), tubs.indexOf(tub), changeIntervalDays)
        : addDays(dayOf(before.at, zone), changeIntervalDays);
    // What was changed today was due by today: a series does not wait for the interval.
    const [earlier = today] = [byInterval, today].sort();
    return earlier;
  };
  const due = dueChores({
    chores,
    tubs,
    zone,
    lastActs: lastActsBefore(acts, morning),
    ticks: store.lastDone(morning),
    later: store.later(),
    handedOver: store.handedOver(),
    changeDueOn: dueOnOf,
    facts: choreFacts(desk, chores, tubs, morning),
  });
  return {
    today,
    partners: settings.partners(),
    tubs,
    due,
    doneToday: doneToday(desk, due, acts, tubs, morning),
    litresPlanned: new Map([...plans].map(([id, { litres }]) => [id, litres])),
    litresToday: new Map(
      [...changes].map(([id, own]) => [
        id,
        own.filter(({ at }) => at >= morning).reduce((sum, { litres }) => sum + litres, 0),
      ]),
    ),
  };
}

function actsOf(desk: Desk, { id }: Tub, changes: readonly Change[], morning: Instant): Acts {
  const { water } = desk.store;
  // The chore is the nitrate test: a reading of the temperature alone does not do it.
  const readings = water.readings(id, morning);
  return {
    change: changes,
    reading: [
      ...listOf(water.latestWith(id, 'nitrateMgL', morning)),
      ...readings.filter(({ nitrateMgL }) => nitrateMgL !== null),
    ],
    test: [...listOf(water.latestWith(id, 'ammoniaMgL', morning)).filter(isTest), ...readings.filter(isTest)],
    topup: [...listOf(water.latestTopUp(id, morning)), ...water.topUps(id, morning)],
  };
}

/** After a trouble both are tested: one alone tells half. */
const isTest = ({ ammoniaMgL, nitriteMgL }: WaterValues): boolean => ammoniaMgL !== null && nitriteMgL !== null;

const listOf = <T>(one: T | undefined): T[] => (one === undefined ? [] : [one]);

function lastActsBefore(acts: ReadonlyMap<number, Acts>, before: Instant): LastActs {
  const last = (act: keyof Acts): Map<number, ChoreTick> => {
    const found = new Map<number, ChoreTick>();
    for (const [id, own] of acts) {
      const tick = own[act].findLast(({ at }) => at < before);
      if (tick !== undefined) found.set(id, tick);
    }
    return found;
  };
  return { change: last('change'), reading: last('reading'), test: last('test'), topup: last('topup') };
}

/** What was done since this morning, by chore and place. */
function doneToday(
  desk: Desk,
  due: readonly DueChore[],
  acts: ReadonlyMap<number, Acts>,
  tubs: readonly Tub[],
  morning: Instant,
): Map<string, ChoreTick> {
  const done = new Map<string, ChoreTick>();
  const racks = new Map(tubs.map(({ id, rack }) => [id, rack]));
  for (const one of due) {
    const { chore, target } = one;
    if (chore.act === 'own') continue;
    const { act } = chore;
    for (const [id, own] of acts) {
      const isHere =
        target.of === 'business' || (target.of === 'tub' ? target.tubId === id : target.rack === racks.get(id));
      const tick = isHere ? own[act].findLast(({ at }) => at >= morning) : undefined;
      if (tick !== undefined) done.set(keyOf(one), { at: tick.at, by: tick.by });
    }
  }
  for (const tick of desk.store.chores.doneSince(morning)) done.set(placeKey(tick), { at: tick.at, by: tick.by });
  return done;
}
