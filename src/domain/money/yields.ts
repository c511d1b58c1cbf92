import { dayOf } from '../day.ts';
import type { Tub } from '../tub.ts';
import { daysIn, overlap, type Period } from './period.ts';

/** An amount for each of so many, to the nearest minor unit, a half away from zero; null where there is none of it. */
export function perEach(minor: number, many: number): number | null {
  if (!(many > 0)) return null;
  const rounded = Math.sign(minor) * Math.round(Math.abs(minor) / many);
  return rounded === 0 ? 0 : rounded;
}

/** The same for ten animals. */
export const perTen = (minor: number, animals: number): number | null => perEach(minor * 10, animals);

type InUse = Pick<Tub, 'addedAt' | 'retired'>;

/** Days of a period on which a tub was in use, the day of its retirement included. */
export function daysInUse({ addedAt, retired }: InUse, period: Period, zone: string): number {
  const last = retired === null ? period.last : dayOf(retired.at, zone);
  const used = overlap({ first: dayOf(addedAt, zone), last }, period);
  return used === undefined ? 0 : daysIn(used);
}

/** Net litres in use on the average day of a period. */
export const litresInUse = (tubs: readonly (InUse & Pick<Tub, 'netLitres'>)[], period: Period, zone: string): number =>
  tubs.reduce((sum, tub) => sum + tub.netLitres * daysInUse(tub, period, zone), 0) / daysIn(period);
