import {
  addDays,
  type By,
  type ChangedThing,
  dayMs,
  dayOf,
  daysBetween,
  type FirstAid,
  firstAid,
  hourMs,
  type Instant,
  type LocalDay,
  noWaterValues,
  offSaleOn,
  ok,
  type Person,
  plusMs,
  type Refusal,
  type Result,
  type SeenThing,
  swappedTogether,
  type Trouble,
  type Tub,
  troubleLookDays,
  type WaterValueName,
  type WaterValues,
  waterIn,
} from '../../domain/index.ts';
import { businessOf, type Desk, log, todayOf } from '../desk.ts';
import { findTub, tubById, tubsInUse } from '../find.ts';
import { plantTroubleChores } from '../rota/troubleChores.ts';
import { waterNow } from '../water/changePlan.ts';
import { type WaterFacts, waterFacts } from '../water/facts.ts';
import { verdictOn } from '../water/verdict.ts';

/** What the books know of a tub's last 72 hours, before anybody is asked. */
export interface TroubleAsked {
  readonly tub: Tub;
  readonly changes: readonly { readonly litres: number; readonly percent: number; readonly at: Instant }[];
  readonly topUps: readonly { readonly litres: number; readonly at: Instant }[];
  /** Animals that were moved in. */
  readonly movedIn: number;
  readonly deadInAWeek: number;
}

const askedHours = 72;

export function troubleAsked(desk: Desk, tub: Tub): TroubleAsked {
  const since = plusMs(desk.now(), -askedHours * hourMs);
  const { animals, water } = desk.store;
  const sum = (facts: readonly { readonly number: number }[]): number =>
    facts.reduce((total, { number }) => total + number, 0);
  return {
    tub,
    changes: water
      .changes(tub.id, since)
      .map(({ litres, at }) => ({ litres, at, percent: Math.round((100 * litres) / tub.netLitres) })),
    topUps: water.topUps(tub.id, since).map(({ litres, at }) => ({ litres, at })),
    movedIn: sum(animals.moves(tub.id, since).filter(({ toTubId }) => toTubId === tub.id)),
    deadInAWeek: sum(animals.losses(tub.id, plusMs(desk.now(), -7 * dayMs))),
  };
}

/** A tub in trouble: what is to be done, by what was said and what was measured up to now. */
export interface TroubleState {
  readonly tub: Tub;
  readonly trouble: Trouble;
  readonly aid: FirstAid;
  /** The hold that it is under now; null: it is on sale again. */
  readonly offSale: { readonly until: LocalDay | null } | null;
  /** The last day of the looks. */
  readonly looksTo: LocalDay;
  /** The other partners: they are told. */
  readonly others: readonly Person[];
}

/** Logs a tub's trouble: off sale, checks on the rota, and what to do. */
export function startTrouble(
  desk: Desk,
  by: By,
  tub: Tub,
  said: { readonly changed: readonly ChangedThing[]; readonly seen: readonly SeenThing[] },
): TroubleState {
  const holdNow = desk.store.animals.latestHold(tub.id);
  // One that ends by itself would put the tub on sale again before anybody said that it is well.
  const isHeld = holdNow !== undefined && holdNow.until === null;
  desk.store.write(() => {
    log(desk, by, 'trouble', `${tub.name} in trouble: off sale, checks on the rota`, (entry, at) => {
      desk.store.troubles.add(entry, { tubId: tub.id, at, ...said });
      if (!isHeld) desk.store.animals.addHold(entry, { tubId: tub.id, at, reason: 'trouble', until: null }, false);
    });
    plantTroubleChores(desk, by);
  });
  const trouble = desk.store.troubles.latest(tub.id);
  if (trouble === undefined) throw new Error('a trouble that was just logged is not there');
  return stateOf(desk, by, tub, trouble);
}

/** The trouble that a tub is in: logged so lately that it is still looked at; null: none. */
export function runningTrouble(desk: Desk, by: Person, tub: Tub): TroubleState | null {
  const trouble = desk.store.troubles.latest(tub.id);
  if (trouble === undefined) return null;
  const state = stateOf(desk, by, tub, trouble);
  return state.looksTo < todayOf(desk) ? null : state;
}

/** The tub that was typed, with its running trouble. */
export function troubleOf(
  desk: Desk,
  by: Person,
  typed: string,
): Result<{ readonly tub: Tub; readonly running: TroubleState | null }, Refusal> {
  const found = findTub(desk, typed);
  return found.ok ? ok({ tub: found.value, running: runningTrouble(desk, by, found.value) }) : found;
}

/** Tubs in trouble, with the day of the looks, 0 on the day itself. */
export function tubsInTrouble(desk: Desk): { readonly tub: Tub; readonly day: number; readonly of: number }[] {
  const { zone } = businessOf(desk);
  const today = todayOf(desk);
  return tubsInUse(desk).flatMap((tub) => {
    const trouble = desk.store.troubles.latest(tub.id);
    const day = trouble === undefined ? troubleLookDays + 1 : daysBetween(dayOf(trouble.at, zone), today);
    return day > troubleLookDays ? [] : [{ tub, day, of: troubleLookDays }];
  });
}

function stateOf(desk: Desk, by: Person, tub: Tub, trouble: Trouble): TroubleState {
  const business = businessOf(desk);
  const today = todayOf(desk, business);
  return {
    tub,
    trouble,
    aid: aidFor(desk, tub, trouble),
    offSale: offSaleOn(desk.store.animals.latestHold(tub.id), today),
    looksTo: addDays(dayOf(trouble.at, business.zone), troubleLookDays),
    others: desk.store.settings.partners().filter(({ userId }) => userId !== by.userId),
  };
}

function aidFor(desk: Desk, tub: Tub, { changed, seen }: Trouble): FirstAid {
  const business = businessOf(desk);
  const now = desk.now();
  const { water } = desk.store;
  const { newest } = waterFacts(desk, business, tub);
  const values = measuredSince(newest, plusMs(now, -askedHours * hourMs));
  const findings = verdictOn(desk, business, tub, { ...values, at: now }).findings;
  const fresh = verdictOn(desk, business, tub, { ...measuredSince(newest, plusMs(now, -dayMs)), at: now }).findings;
  const today = water.changes(tub.id, plusMs(now, -dayMs));
  const source = waterIn(business).values;
  return firstAid({
    changed,
    seen,
    findings,
    fresh: fresh.map(({ of }) => of),
    netLitres: tub.netLitres,
    swapped: swappedTogether(today.map(({ litres }) => Math.min(0.99, litres / tub.netLitres))),
    changesLogged: water.changes(tub.id, plusMs(now, -askedHours * hourMs)).length,
    water: { tub: waterNow(desk, tub, newest, source), source: { ...source, tempC: null } },
    sameLine: soundTubsOfLine(desk, tub),
  });
}

/** The newest of each value since an instant; what was not measured is null. */
function measuredSince(newest: WaterFacts['newest'], since: Instant): WaterValues {
  const measured = (name: WaterValueName): number | null => {
    const reading = newest[name];
    return reading !== undefined && reading.at >= since ? reading[name] : null;
  };
  const names = Object.keys(noWaterValues) as WaterValueName[];
  return { ...noWaterValues, ...Object.fromEntries(names.map((name) => [name, measured(name)])) };
}

/** Other tubs of the line that a few could be moved to: neither off sale nor in trouble themselves. */
function soundTubsOfLine(desk: Desk, { id, lineId }: Tub): string[] {
  const today = todayOf(desk);
  const inTrouble = new Set(tubsInTrouble(desk).map(({ tub }) => tub.id));
  return tubsInUse(desk)
    .filter((tub) => tub.lineId === lineId && tub.id !== id && !inTrouble.has(tub.id))
    .filter((tub) => offSaleOn(desk.store.animals.latestHold(tub.id), today) === null)
    .map(({ name }) => name);
}

/** A tub in use by its id, as controls carry it, with its running trouble; undefined where it is gone. */
export function troubleOfId(
  desk: Desk,
  by: Person,
  id: number,
): { readonly tub: Tub; readonly running: TroubleState | null } | undefined {
  const tub = tubById(desk, id);
  return tub === undefined || tub.retired !== null ? undefined : { tub, running: runningTrouble(desk, by, tub) };
}
