import type { Partner } from '../business.ts';
import type { LocalDay } from '../day.ts';
import { isAway } from './shares.ts';

type Going = Pick<Partner, 'name' | 'awayFrom' | 'awayTo'>;

/** Days away on end, both ends included; null: no beginning, or no end. */
export interface Absence {
  readonly from: LocalDay | null;
  readonly to: LocalDay | null;
}

const latest = (days: readonly (LocalDay | null)[]): LocalDay | null =>
  days
    .flatMap((day) => day ?? [])
    .sort()
    .at(-1) ?? null;
const earliest = (days: readonly (LocalDay | null)[]): LocalDay | null =>
  days.flatMap((day) => day ?? []).sort()[0] ?? null;

/** The days on which all partners are away at once; null: there are none, or no partners. */
export function allAway(partners: readonly Going[]): Absence | null {
  const isGoing = ({ awayFrom, awayTo }: Going): boolean => awayFrom !== null || awayTo !== null;
  if (partners.length === 0 || !partners.every(isGoing)) return null;
  const from = latest(partners.map(({ awayFrom }) => awayFrom));
  const to = earliest(partners.map(({ awayTo }) => awayTo));
  return from !== null && to !== null && to < from ? null : { from, to };
}

/** Partners who are away on one of these days. */
export const awayOnOneOf = <T extends Going>(partners: readonly T[], days: readonly LocalDay[]): T[] =>
  partners.filter((partner) => days.some((day) => isAway(partner, day)));
