import {
  type Business,
  type ChangePlan,
  changeDueOn,
  dayOf,
  nitrateAfter,
  planChange,
  type Reading,
  type Tub,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { verdictOn } from './verdict.ts';

/**
 * The change that a tub needs next, and when. Harmful ammonia or nitrite makes it due on the day it was read, until a change or a
 * better reading; so does too much nitrate in a tub whose changes were never logged.
 * @param inUse tubs in use, among which a tub never changed has its place
 */
export function changePlanOf(
  desk: Desk,
  business: Business,
  tub: Tub,
  inUse: readonly Tub[] = tubsInUse(desk),
): ChangePlan {
  const { water } = desk.store;
  const read = water.latestWith(tub.id, 'nitrateMgL');
  const after = read === undefined ? [] : water.changes(tub.id, read.at).filter(({ at }) => at > read.at);
  const since = after.map(({ litres }) => litres);
  const nitrateNow =
    read === undefined || read.nitrateMgL === null
      ? null
      : nitrateAfter(read.nitrateMgL, since, tub.netLitres, business.sourceNitrateMgL);
  const lastAt = water.latestChange(tub.id)?.at;
  const place = inUse.findIndex(({ id }) => id === tub.id);
  const dueOn = changeDueOn(
    lastAt === undefined ? null : dayOf(lastAt, business.zone),
    dayOf(tub.addedAt, business.zone),
    Math.max(0, place),
    business.changeIntervalDays,
  );
  const last = water.latestReading(tub.id);
  const isChanged = last !== undefined && lastAt !== undefined && lastAt > last.at;
  const isUrgent = last !== undefined && !isChanged && harms(desk, business, tub, last);
  if (isUrgent) return planChange(tub.netLitres, nitrateNow, dayOf(last.at, business.zone), business, true);
  const isOver = lastAt === undefined && read !== undefined && (nitrateNow ?? 0) > business.nitrateLimitMgL;
  const [earliest = dueOn] = [dueOn, ...(isOver ? [dayOf(read.at, business.zone)] : [])].sort();
  return planChange(tub.netLitres, nitrateNow, earliest, business);
}

/** Whether a reading's ammonia or nitrite harms today. */
const harms = (desk: Desk, business: Business, tub: Tub, reading: Reading): boolean =>
  verdictOn(desk, business, tub, reading).findings.some(
    ({ of, state }) => state === 'act' && (of === 'ammonia' || of === 'nitrite'),
  );

/** The plans of all tubs in use, the earliest due first. */
export function changePlans(desk: Desk): { tub: Tub; plan: ChangePlan }[] {
  const business = businessOf(desk);
  const tubs = tubsInUse(desk);
  return tubs
    .map((tub) => ({ tub, plan: changePlanOf(desk, business, tub, tubs) }))
    .sort((a, b) => a.plan.dueOn.localeCompare(b.plan.dueOn));
}
