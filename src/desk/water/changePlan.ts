import {
  afterChange,
  type Business,
  type ChangePlan,
  dayMs,
  dayOf,
  firstDueOn,
  isAlarm,
  type MovedWater,
  type OddReading,
  planChange,
  plusMs,
  type Reading,
  type StandingValue,
  type Tub,
  type WaterValueName,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { standingOf, type WaterFacts, waterFacts } from './facts.ts';
import { type RackNitrate, rackNitrate } from './nitrate.ts';
import { oddReading } from './odd.ts';
import { waterIn } from './waterIn.ts';

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
  return planChange({
    netLitres: tub.netLitres,
    policy: { ...business, sourceNitrateMgL: source.nitrateMgL },
    estimate: nitrate.estimateOf(tub),
    today: dayOf(desk.now(), zone),
    lastChangedOn: lastChange === null ? null : dayOf(lastChange.at, zone),
    firstDueOn: firstDueOn(dayOf(tub.addedAt, zone), Math.max(0, place), changeIntervalDays),
    readOn: readAt === undefined ? null : dayOf(readAt, zone),
    harmOn: alarm === undefined ? null : dayOf(alarm.at, zone),
    water: waterNow(desk, tub, newest, source),
    source: { ...source, tempC: null },
  });
}

/** Minerals read longer ago than this, and a temperature, say nothing of today, in days (common practice, no source). */
const mineralDays = 120;
const temperatureDays = 14;

/** A tub's minerals as last read with the changes since taken into account, and its temperature. */
export function waterNow(
  { store: { water }, now }: Desk,
  tub: Tub,
  newest: WaterFacts['newest'],
  source: Omit<MovedWater, 'tempC'>,
): MovedWater {
  const lastOf = (name: WaterValueName, days: number): Reading | undefined => {
    const reading = newest[name];
    return reading !== undefined && reading.at >= plusMs(now(), -days * dayMs) ? reading : undefined;
  };
  const changed = (reading: Reading | undefined, name: 'tdsMgL' | 'ghDgh'): number | null => {
    const [value, from] = [reading?.[name] ?? null, source[name]];
    if (reading === undefined || value === null || from === null) return value;
    // Of the same moment a reading came before a change.
    return water
      .changes(tub.id, reading.at)
      .reduce((level, { litres }) => afterChange(level, Math.min(1, litres / tub.netLitres), from), value);
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
    odd: read === undefined ? null : oddReading(desk, rack, tub, read),
    standing: standingOf(desk, rack.business, tub),
  };
}

/** The plans of all tubs in use, the earliest due first. */
export function changePlans(desk: Desk, rack: Rack = rackOf(desk)): TubPlan[] {
  return rack.inUse
    .map((tub) => ({ tub, plan: changePlanOf(desk, tub, rack) }))
    .sort((a, b) => a.plan.dueOn.localeCompare(b.plan.dueOn));
}
