import {
  afterChange,
  type Business,
  type ChangePlan,
  dayMs,
  dayOf,
  firstDueOn,
  type Instant,
  type LocalDay,
  type MovedWater,
  type OddReading,
  planChange,
  plusMs,
  type Reading,
  type Tub,
  type WaterValueName,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { type RackNitrate, rackNitrate } from './nitrate.ts';
import { oddReading } from './odd.ts';
import { verdictOn } from './verdict.ts';
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
 * better reading; so does too much nitrate in a tub whose changes were never logged.
 */
export function changePlanOf(desk: Desk, tub: Tub, { business, inUse, nitrate }: Rack = rackOf(desk)): ChangePlan {
  const { water } = desk.store;
  const { zone, changeIntervalDays } = business;
  const lastAt = water.latestChange(tub.id)?.at;
  const readAt = water.latestWith(tub.id, 'nitrateMgL')?.at;
  const place = inUse.findIndex(({ id }) => id === tub.id);
  const source = waterIn(business).values;
  return planChange({
    netLitres: tub.netLitres,
    policy: { ...business, sourceNitrateMgL: source.nitrateMgL },
    estimate: nitrate.estimateOf(tub),
    today: dayOf(desk.now(), zone),
    lastChangedOn: lastAt === undefined ? null : dayOf(lastAt, zone),
    firstDueOn: firstDueOn(dayOf(tub.addedAt, zone), Math.max(0, place), changeIntervalDays),
    readOn: readAt === undefined ? null : dayOf(readAt, zone),
    harmOn: harmOn(desk, business, tub, lastAt),
    water: waterNow(desk, tub, source),
    source: { ...source, tempC: null },
  });
}

/** The day on which ammonia or nitrite was read that harms; null: none, or the tub was changed since. */
function harmOn(desk: Desk, business: Business, tub: Tub, lastChangedAt: Instant | undefined): LocalDay | null {
  const last = desk.store.water.latestReading(tub.id);
  if (last === undefined || (lastChangedAt !== undefined && lastChangedAt > last.at)) return null;
  return harms(desk, business, tub, last) ? dayOf(last.at, business.zone) : null;
}

/** Whether a reading's ammonia or nitrite harms today. */
const harms = (desk: Desk, business: Business, tub: Tub, reading: Reading): boolean =>
  verdictOn(desk, business, tub, reading).findings.some(
    ({ of, state }) => state === 'act' && (of === 'ammonia' || of === 'nitrite'),
  );

/** Minerals read longer ago than this, and a temperature, say nothing of today, in days (common practice, no source). */
const mineralDays = 120;
const temperatureDays = 14;

/** A tub's minerals as last read with the changes since taken into account, and its temperature. */
function waterNow({ store: { water }, now }: Desk, tub: Tub, source: Omit<MovedWater, 'tempC'>): MovedWater {
  const lastOf = (name: WaterValueName, days: number): Reading | undefined => {
    const reading = water.latestWith(tub.id, name);
    return reading !== undefined && reading.at >= plusMs(now(), -days * dayMs) ? reading : undefined;
  };
  const changed = (reading: Reading | undefined, name: 'tdsMgL' | 'ghDgh'): number | null => {
    const [value, from] = [reading?.[name] ?? null, source[name]];
    if (reading === undefined || value === null || from === null) return value;
    return water
      .changes(tub.id, reading.at)
      .filter(({ at }) => at > reading.at)
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

/** The plan of one tub, with its newest nitrate reading where that does not follow from what was logged before. */
export function tubPlanOf(desk: Desk, tub: Tub): TubPlan & { readonly odd: OddReading | null } {
  const rack = rackOf(desk);
  const read = desk.store.water.latestWith(tub.id, 'nitrateMgL');
  return {
    tub,
    plan: changePlanOf(desk, tub, rack),
    odd: read === undefined ? null : oddReading(desk, rack, tub, read),
  };
}

/** The plans of all tubs in use, the earliest due first. */
export function changePlans(desk: Desk, rack: Rack = rackOf(desk)): TubPlan[] {
  return rack.inUse
    .map((tub) => ({ tub, plan: changePlanOf(desk, tub, rack) }))
    .sort((a, b) => a.plan.dueOn.localeCompare(b.plan.dueOn));
}
