import {
  type Business,
  type By,
  type Change,
  type ChangePlan,
  canBe,
  celsiusOf,
  changeDueOn,
  dayMs,
  dayOf,
  fail,
  firstImpossible,
  type Instant,
  judgeReading,
  mend,
  nitrateAfter,
  noWaterValues,
  ok,
  planChange,
  plusMs,
  type Reading,
  type Refusal,
  type Result,
  type Tub,
  type WaterValueName,
  type WaterValues,
  type WaterVerdict,
} from '../domain/index.ts';
import { businessOf, type Desk, log, nth } from './desk.ts';
import { findTub, tubsInUse } from './find.ts';
import { whenOf } from './when.ts';

/** Values as typed, on the scale of the business's units; what was left out is undefined. */
export type TypedValues = { readonly [K in WaterValueName]?: number | undefined };

export interface ReadingInput {
  readonly tub: string;
  readonly values: TypedValues;
  readonly at?: Instant | undefined;
  readonly note?: string | undefined;
}

export interface ReadingLogged {
  readonly tub: Tub;
  readonly reading: WaterValues & { readonly at: Instant };
  readonly verdict: WaterVerdict;
  readonly plan: ChangePlan;
  readonly entryId: number;
}

/** Checks, logs and judges a reading. Temperatures come on the scale of the business's units. */
export function logReading(desk: Desk, by: By, input: ReadingInput): Result<ReadingLogged, Refusal> {
  const business = businessOf(desk);
  const found = findTub(desk, input.tub);
  if (!found.ok) return found;
  const tub = found.value;
  const values = metric(desk, business, tub, input.values);
  if (!values.ok) return values;
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  const known = knownOf(desk, tub, at.value);
  const entryId = log(desk, by, 'reading', `${tub.name} reading${shortValues(values.value)}`, (entry) => {
    desk.store.water.addReading(entry, {
      ...values.value,
      tubId: tub.id,
      at: at.value,
      note: input.note?.trim() || null,
    });
  });
  return ok({
    tub,
    reading: { ...values.value, at: at.value },
    verdict: judgeReading(values.value, known, business),
    plan: changePlanOf(desk, business, tub),
    entryId,
  });
}

function shortValues(values: WaterValues): string {
  const words: Record<WaterValueName, (value: number) => string> = {
    nitrateMgL: (value) => `NO3 ${value}`,
    nitriteMgL: (value) => `NO2 ${value}`,
    ammoniaMgL: (value) => `NH4 ${value}`,
    tempC: (value) => `${Number(value.toFixed(1))} °C`,
    ph: (value) => `pH ${value}`,
    ghDgh: (value) => `GH ${value}`,
    khDkh: (value) => `KH ${value}`,
    tdsMgL: (value) => `TDS ${value}`,
  };
  return (Object.keys(words) as WaterValueName[])
    .flatMap((name) => (values[name] === null ? [] : [`, ${words[name](values[name])}`]))
    .join('');
}

/** The typed values in metric, all possible ones, or the refusal of the first that cannot be. */
function metric(desk: Desk, business: Business, tub: Tub, typed: TypedValues): Result<WaterValues, Refusal> {
  const values: Record<WaterValueName, number | null> = { ...noWaterValues };
  for (const name of Object.keys(values) as WaterValueName[]) {
    const given = typed[name];
    if (given === undefined) continue;
    const inFahrenheit = name === 'tempC' && business.units === 'us';
    const value = inFahrenheit ? celsiusOf(given) : given;
    if (!canBe(name, value)) {
      const last = desk.store.water.latestWith(tub.id, name);
      return fail({
        kind: 'impossible-water',
        tub: tub.name,
        value: name,
        typed: given,
        mended: mend(name, given, inFahrenheit),
        last: last === undefined ? null : { value: last[name] ?? 0, at: last.at },
      });
    }
    values[name] = value;
  }
  const isEmpty = Object.values(values).every((value) => value === null);
  return isEmpty ? fail({ kind: 'nothing-given', what: 'at least one value, like temp or nitrate' }) : ok(values);
}

/** The tub's last pH and temperature of the 60 days before, and its usual TDS (median of at least three). */
function knownOf(
  desk: Desk,
  tub: Tub,
  at: Instant,
): { ph: number | null; tempC: number | null; usualTdsMgL: number | null } {
  const before = desk.store.water.readings(tub.id, plusMs(at, -180 * dayMs)).filter((reading) => reading.at < at);
  const recent = before.filter((reading) => reading.at >= plusMs(at, -60 * dayMs));
  const tds = before.flatMap(({ tdsMgL }) => (tdsMgL === null ? [] : [tdsMgL])).sort((a, b) => a - b);
  return {
    ph: recent.findLast(({ ph }) => ph !== null)?.ph ?? null,
    tempC: recent.findLast(({ tempC }) => tempC !== null)?.tempC ?? null,
    usualTdsMgL: tds.length < 3 ? null : (tds[Math.floor(tds.length / 2)] ?? null),
  };
}

/** What was read in a tub and changed in it, oldest first, and the nitrate that it should stay under. */
export interface WaterPast {
  readonly tub: Tub;
  readonly readings: readonly Reading[];
  readonly changes: readonly Change[];
  readonly nitrateLimitMgL: number;
}

/** A tub's water over the last `days`. */
export function waterPast(desk: Desk, tub: Tub, days: number): WaterPast {
  const since = plusMs(desk.now(), -days * dayMs);
  return {
    tub,
    readings: desk.store.water.readings(tub.id, since),
    changes: desk.store.water.changes(tub.id, since),
    nitrateLimitMgL: businessOf(desk).nitrateLimitMgL,
  };
}

/** The water over the last `days` of the tub that was typed. */
export function readingHistory(desk: Desk, typed: string, days: number): Result<WaterPast, Refusal> {
  const found = findTub(desk, typed);
  if (!found.ok) return found;
  const refused = firstImpossible([['days', days]]);
  if (refused !== null) return fail(refused);
  return ok(waterPast(desk, found.value, days));
}

export const lastReading = (desk: Desk, tub: Tub): Reading | undefined => desk.store.water.latestReading(tub.id);

export const lastChange = (desk: Desk, tub: Tub): Change | undefined => desk.store.water.latestChange(tub.id);

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

/** A reading judged by what was known of its tub then. */
export const verdictOn = (desk: Desk, business: Business, tub: Tub, reading: Reading): WaterVerdict =>
  judgeReading(reading, knownOf(desk, tub, reading.at), business);

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

export interface SheetRow {
  readonly tub: string;
  readonly values: TypedValues;
}

/** Logs the rows of a sheet, each as an entry of its own; a row that is refused does not stop the others. */
export function logSheet(
  desk: Desk,
  by: By,
  rows: readonly SheetRow[],
): { row: SheetRow; result: Result<ReadingLogged, Refusal> }[] {
  return desk.store.write(() => rows.map((row, index) => ({ row, result: logReading(desk, nth(by, index), row) })));
}
