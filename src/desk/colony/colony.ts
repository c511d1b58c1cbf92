import {
  addDays,
  type Business,
  type Colony,
  type ColonyTub,
  dayOf,
  decodeColony,
  encodeColony,
  isKept,
  type LocalDay,
  quantilesOf,
  replay,
  type Surprise,
  saleableOf,
  type Tub,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { colonyEvents, EventGround } from './facts.ts';
import { type Temps, tempsOf } from './temps.ts';

/** What is believed of a tub's animals today; null colony: not counted yet. */
export interface ColonyNow {
  readonly tub: ColonyTub;
  readonly colony: Colony | null;
  /** Facts that were not expected, as far as they were gone through anew. */
  readonly surprises: readonly Surprise[];
}

interface Kept extends ColonyNow {
  /** All that it rests on. */
  readonly ground: string;
}

const kept = new WeakMap<Desk['store'], Map<number, Kept>>();

/** The tub as the model sees it. */
export function colonyTub(desk: Desk, business: Business, tub: Tub): ColonyTub {
  const line = desk.store.tubs.lines().find(({ id }) => id === tub.lineId);
  return {
    id: tub.id,
    netLitres: tub.netLitres,
    saleableMm: line?.saleableMm ?? usualMm,
    temps: tempsOf(desk, business).of(tub),
  };
}

/** Saleable length of a tub whose line was undone, mm. */
const usualMm = 15;

/** What is believed of a tub's animals at the end of today, by all facts logged up to now. Reckoned anew only where a fact is new or void. */
export function colonyNow(desk: Desk, business: Business, tub: Tub): ColonyNow {
  const mine = kept.get(desk.store) ?? new Map<number, Kept>();
  kept.set(desk.store, mine);
  const today = dayOf(desk.now(), business.zone);
  const temps = tempsOf(desk, business);
  const model = colonyTub(desk, business, tub);
  const facts = desk.store.freshness('animals', tub.id);
  const ground = [today, facts, temps.groundOf(tub, today), model.netLitres, model.saleableMm, business.zone].join('|');
  const before = mine.get(tub.id);
  if (before?.ground === ground) return before;
  const fresh: Kept = { ...reckoned(desk, model, temps, today, today, business.zone), ground };
  mine.set(tub.id, fresh);
  return fresh;
}

/** Goes on from the newest snapshot that rests on the same facts up to a day, and keeps the snapshots that come of it. */
function reckoned(desk: Desk, tub: ColonyTub, temps: Temps, to: LocalDay, today: LocalDay, zone: string): ColonyNow {
  const { colonies } = desk.store;
  const events = colonyEvents(desk, tub.id, zone);
  const byEvents = new EventGround(events);
  const groundOn = (day: LocalDay): string => `${byEvents.on(day)} ${temps.groundOf(tub, day)}`;
  const snapshots = colonies.days(tub.id);
  const valid = snapshots.filter(({ day, ground }) => day <= today && ground === groundOn(day));
  const from = firstSound(desk, tub, valid);
  const { colony, surprises, snapshots: made } = replay(tub, events, from, to, (day) => isKept(day, today));
  const added = made
    .filter(({ day }) => day !== from?.day)
    .map((one) => ({
      day: one.day,
      ground: groundOn(one.day),
      saleable: quantilesOf(saleableOf(one), [0.5])[0] ?? 0,
      state: encodeColony(one, tub),
    }));
  const sound = new Set(valid.map(({ day }) => day));
  const dropped = snapshots.filter(({ day }) => !sound.has(day) || (!isKept(day, today) && day !== from?.day));
  colonies.keep(
    tub.id,
    added,
    dropped.map(({ day }) => day),
  );
  return { tub, colony, surprises };
}

/** Days that are gone through in one slice: some ten milliseconds. */
const sliceDays = 200;

/** Brings what is believed of all tubs up to today, a slice at a time, so that no answer has to wait for years to be gone through. */
export function* colonySlices(desk: Desk): Generator<void> {
  for (const tub of tubsInUse(desk)) {
    const business = businessOf(desk);
    const today = dayOf(desk.now(), business.zone);
    const model = colonyTub(desk, business, tub);
    const first = colonyEvents(desk, tub.id, business.zone).find(({ of }) => of === 'count')?.day;
    if (first === undefined) continue;
    for (let to = addDays(first, sliceDays); to < today; to = addDays(to, sliceDays)) {
      const newest = desk.store.colonies.days(tub.id)[0]?.day;
      if (newest !== undefined && newest >= to) continue;
      reckoned(desk, model, tempsOf(desk, business), to, today, business.zone);
      yield;
    }
    colonyNow(desk, business, tub);
    yield;
  }
}

/** The newest of some snapshots that can be read. */
function firstSound(desk: Desk, tub: ColonyTub, valid: readonly { readonly day: LocalDay }[]): Colony | null {
  for (const { day } of valid) {
    const bytes = desk.store.colonies.state(tub.id, day);
    const colony = bytes === undefined ? null : decodeColony(bytes, tub);
    if (colony !== null) return colony;
  }
  return null;
}

/** Saleable animals of a tub by member; null: not counted yet. */
export const membersOf = ({ colony }: ColonyNow): Float32Array | null => (colony === null ? null : saleableOf(colony));
