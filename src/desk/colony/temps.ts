import {
  type Business,
  type DayTemp,
  dayOf,
  fitYearCurve,
  hemisphereOf,
  type LocalDay,
  type TempPoint,
  type Tub,
  tubTemperature,
  type YearCurve,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

/** The temperatures of the tubs by day, each as it could be known by the end of that day. */
export interface Temps {
  readonly of: (tub: Pick<Tub, 'id'>) => (day: LocalDay) => DayTemp;
  /** Another text where a tub's temperatures up to a day would be others. */
  readonly groundOf: (tub: Pick<Tub, 'id'>, day: LocalDay) => string;
}

interface Read extends TempPoint {
  readonly entryId: number;
}

/** Curves of tubs kept at a time: a month of eighty tubs, and then some. */
const mostKept = 400;

interface Kept {
  readonly key: string;
  readonly temps: Temps;
  readonly zone: string;
  /** The days of the readings by their entries: a reading's moment is never changed. */
  readonly days: ReadonlyMap<number, LocalDay>;
}

const kept = new WeakMap<Desk['store'], Kept>();

/**
 * Temperatures from all readings. A day's is told by the rack's yearly curve, fitted to the readings of the months before, and by the tub's own
 * readings up to that day: what is read later never changes what was concluded of the days before, so that conclusions can be kept.
 */
export function tempsOf(desk: Desk, business: Business): Temps {
  const key = `${desk.store.temperatureFreshness()} ${business.zone}`;
  const before = kept.get(desk.store);
  if (before?.key === key) return before.temps;
  const { zone } = business;
  const known = before?.zone === zone ? before.days : undefined;
  const read = desk.store.water.temperatures().map(({ at, tempC, tubId, entryId }) => {
    return { day: known?.get(entryId) ?? dayOf(at, zone), tempC, tubId, entryId };
  });
  const temps = fitted(read, zone);
  kept.set(desk.store, { key, temps, zone, days: new Map(read.map(({ entryId, day }) => [entryId, day])) });
  return temps;
}

function fitted(read: readonly (Read & { readonly tubId: number })[], zone: string): Temps {
  const all = [...read].sort((a, b) => a.day.localeCompare(b.day));
  const own = new Map<number, Read[]>();
  for (const one of all) {
    const mine = own.get(one.tubId) ?? [];
    own.set(one.tubId, mine);
    mine.push(one);
  }
  const hemisphere = hemisphereOf(zone);
  const curves = new Map<string, YearCurve>();
  const curveBefore = (month: string): YearCurve => {
    const known = curves.get(month);
    if (known !== undefined) return known;
    const curve = fitYearCurve(all.slice(0, placeOf(all, `${month}-01` as LocalDay)), hemisphere);
    curves.set(month, curve);
    return curve;
  };
  const byTub = new Map<string, (day: LocalDay) => DayTemp>();
  return {
    of: ({ id }) => {
      const mine = own.get(id) ?? [];
      return (day) => {
        const month = day.slice(0, 7);
        const known = placeAfter(mine, day);
        const key = `${id} ${month} ${known}`;
        const made = byTub.get(key) ?? tubTemperature(curveBefore(month), mine.slice(0, known));
        if (byTub.size >= mostKept) byTub.clear();
        byTub.set(key, made);
        return made(day);
      };
    },
    groundOf: ({ id }, day) => {
      const mine = own.get(id) ?? [];
      const [rack, tub] = [placeOf(all, `${day.slice(0, 7)}-01` as LocalDay), placeAfter(mine, day)];
      return `${sumOf(all, rack)} ${sumOf(mine, tub)}`;
    },
  };
}

/** How many of the readings, in order of days, are of days before `day`. */
function placeOf(read: readonly Read[], day: LocalDay): number {
  let [low, high] = [0, read.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((read[middle]?.day ?? '') < day) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How many are of `day` or before. */
const placeAfter = (read: readonly Read[], day: LocalDay): number => {
  let place = placeOf(read, day);
  while (read[place]?.day === day) place++;
  return place;
};

const sums = new WeakMap<readonly Read[], readonly number[]>();

/** A figure that tells the first so many readings from others: their number and the sum of their entries and values. */
function sumOf(read: readonly Read[], count: number): string {
  let made = sums.get(read);
  if (made === undefined) {
    let sum = 0;
    made = [0, ...read.map(({ entryId, tempC }) => (sum += entryId * 31 + Math.round(tempC * 100)))];
    sums.set(read, made);
  }
  return `${count}/${made[count] ?? 0}`;
}
