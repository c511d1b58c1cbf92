import {
  afterChange,
  type Business,
  type ChangePlan,
  type ChangeQuestion,
  dayMs,
  dayOf,
  firstDueOn,
  isAlarm,
  type MovedWater,
  type NitrateEstimate,
  type OddReading,
  planChange,
  plusMs,
  type Reading,
  type StandingValue,
  type Tub,
  type WaterValueName,
  waterIn,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { standingOf, type WaterFacts, waterFacts } from './facts.ts';
import { type RackNitrate, rackNitrate } from './nitrate.ts';
import { oddReading } from './odd.ts';
import { shareOf } from './shares.ts';

/** What the plans of several tubs share, read once for an answer. */
export interface Rack {
  readonly business: Business;
  readonly inUse: readonly Tub[];
  readonly nitrate: RackNitrate;
}

export function rackOf(desk: Desk, inUse: readonly Tub[] = tubsInUse(desk)): Rack {
  const business = businessOf(desk);
  return { business, inUse, nitrate: rackNitrate(desk, business, inUse) };
}

/**
 * The change that a tub needs next, and when. Harmful ammonia or nitrite makes it due on the day it was read, until a change or a
 * better reading of it; so does too much nitrate in a tub whose changes were never logged.
 */
export function changePlanOf(desk: Desk, tub: Tub, { business, inUse, nitrate }: Rack = rackOf(desk)): ChangePlan {
  const { zone, changeIntervalDays } = business;
  const { lastChange, newest } = waterFacts(desk, business, tub);
  const readAt = newest.nitrateMgL?.at;
  const place = inUse.findIndex(({ id }) => id === tub.id);
  const source = waterIn(business).values;
  const alarm = standingOf(desk, business, tub).find(isAlarm);
  const estimate = nitrate.estimateOf(tub);
  return keptPlan(estimate, {
    netLitres: tub.netLitres,
    policy: { ...business, sourceNitrateMgL: source.nitrateMgL },
    estimate,
    today: dayOf(desk.now(), zone),
    lastChangedOn: lastChange === null ? null : dayOf(lastChange.at, zone),
    firstDueOn: firstDueOn(dayOf(tub.addedAt, zone), Math.max(0, place), changeIntervalDays),
    readOn: readAt === undefined ? null : dayOf(readAt, zone),
    harmOn: alarm === undefined ? null : dayOf(alarm.at, zone),
    water: waterNow(desk, tub, newest, source),
    source: { ...source, tempC: null },
  });
}

const plans = new WeakMap<NitrateEstimate, { readonly key: string; readonly plan: ChangePlan }>();

/** The plan, made anew only where the estimate or anything else of the question changed. */
function keptPlan(estimate: NitrateEstimate, ask: ChangeQuestion): ChangePlan {
  const key = JSON.stringify({ ...ask, estimate: null });
  const before = plans.get(estimate);
  if (before?.key === key) return before.plan;
  const plan = planChange(ask);
  plans.set(estimate, { key, plan });
  return plan;
}

/** Minerals read longer ago than this, and a temperature, say nothing of today, in days (common practice, no source). */
const mineralDays = 120;
const temperatureDays = 14;

/** A tub's minerals as last read with the changes since taken into account, and its temperature. */
export function waterNow(
  desk: Desk,
  tub: Tub,
  newest: WaterFacts['newest'],
  source: Omit<MovedWater, 'tempC'>,
): MovedWater {
  const { water } = desk.store;
  const lastOf = (name: WaterValueName, days: number): Reading | undefined => {
    const reading = newest[name];
    return reading !== undefined && reading.at >= plusMs(desk.now(), -days * dayMs) ? reading : undefined;
  };
  const changed = (reading: Reading | undefined, name: 'tdsMgL' | 'ghDgh'): number | null => {
    const [value, from] = [reading?.[name] ?? null, source[name]];
    if (reading === undefined || value === null || from === null) return value;
    // Of the same moment a reading came before a change.
    const since = water.changes(tub.id, reading.at);
    if (since.length === 0) return value;
    const share = shareOf(desk, tub);
    return since.reduce((level, change) => afterChange(level, share(change), from), value);
  };
  return {
    tempC: lastOf('tempC', temperatureDays)?.tempC ?? null,
    tdsMgL: changed(lastOf('tdsMgL', mineralDays), 'tdsMgL'),
    ghDgh: changed(lastOf('ghDgh', mineralDays), 'ghDgh'),
  };
}

export interface TubPlan {
  readonly tub: Tub;
  readonly plan: ChangePlan;
  /** Whether its newest nitrate reading does not follow from what was logged before. */
  readonly isOdd: boolean;
}

/** What the plan of a tub that is shown alone tells beside it. */
export interface TubPlanShown extends TubPlan {
  readonly odd: OddReading | null;
  /** What is not fine in its water, the worst first. */
  readonly standing: readonly StandingValue[];
}

/** The plan of one tub, with its newest nitrate reading where that does not follow from what was logged before. */
export function tubPlanOf(desk: Desk, tub: Tub): TubPlanShown {
  const rack = rackOf(desk);
  const read = desk.store.water.latestWith(tub.id, 'nitrateMgL');
  return {
    tub,
    plan: changePlanOf(desk, tub, rack),
    isOdd: rack.nitrate.isOdd(tub),
    odd: read === undefined ? null : oddReading(desk, rack, tub, read),
    standing: standingOf(desk, rack.business, tub),
  };
}

/** The plans of all tubs in use, the earliest due first. */
export function changePlans(desk: Desk, rack: Rack = rackOf(desk)): TubPlan[] {
  return rack.inUse
    .map((tub) => ({ tub, plan: changePlanOf(desk, tub, rack), isOdd: rack.nitrate.isOdd(tub) }))
    .sort((a, b) => a.plan.dueOn.localeCompare(b.plan.dueOn));
}
