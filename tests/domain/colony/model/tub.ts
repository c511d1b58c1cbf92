import {
  addDays,
  type ColonyEvent,
  type ColonyTub,
  day,
  type Instant,
  type LocalDay,
} from '../../../../src/domain/index.ts';

export const start: LocalDay = day('2027-03-01');
export const dayAt = (number: number): LocalDay => addDays(start, number);

/** A tub of 20 L in an unheated room: 17 °C at the end of winter, 25 °C at the end of summer. */
export const tubOf = (over: Partial<ColonyTub> = {}): ColonyTub => ({
  id: 7,
  netLitres: 20,
  saleableMm: 15,
  temps: (on) => ({
    tempC: 21 + 4 * Math.sin((2 * Math.PI * (Date.parse(on) / 86_400_000 - 140)) / 365.25),
    sdC: 1,
  }),
  ...over,
});

/** A fact without its place in time. */
export type Act =
  | { readonly of: 'count'; readonly method: 'full' | 'dish' | 'glance'; readonly saleable: number }
  | { readonly of: 'passes'; readonly passes: readonly number[]; readonly saleable: number }
  | { readonly of: 'young'; readonly saleable: number; readonly juveniles: number; readonly berried: number }
  | { readonly of: 'sent' | 'loss'; readonly number: number }
  | { readonly of: 'moveIn' | 'moveOut'; readonly number: number; readonly stage: 'saleable' | 'juvenile' };

const unseen = { juveniles: null, berried: null, passes: null };

/** A fact at noon of a day. */
export function eventAt(on: number, entryId: number, act: Act): ColonyEvent {
  const stamp = { at: `${dayAt(on)}T12:00:00.000Z` as Instant, day: dayAt(on), entryId };
  if (act.of === 'count') return { ...stamp, ...unseen, ...act };
  if (act.of === 'passes') return { ...stamp, ...unseen, ...act, of: 'count', method: 'passes' };
  if (act.of === 'young') return { ...stamp, passes: null, ...act, of: 'count', method: 'full' };
  return { ...stamp, ...act };
}

export const full = (saleable: number): Act => ({ of: 'count', method: 'full', saleable });
export const dish = (saleable: number): Act => ({ of: 'count', method: 'dish', saleable });
export const glance = (saleable: number): Act => ({ of: 'count', method: 'glance', saleable });
export const sent = (number: number): Act => ({ of: 'sent', number });

/** Facts on days, entered in the order of the list. */
export const history = (...acts: readonly (readonly [number, Act])[]): ColonyEvent[] =>
  acts.map(([on, act], nth) => eventAt(on, nth + 1, act));
