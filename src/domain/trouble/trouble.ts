import type { Logged } from '../tub.ts';

/** What can have changed in the last 72 hours, in the order in which it is asked. */
export const changedThings = [
  'water',
  'untreated',
  'top-up',
  'food',
  'plants',
  'animals',
  'remedy',
  'metal',
  'air',
  'heat',
  'spray',
  'cleaning',
  'nothing',
] as const;
export type ChangedThing = (typeof changedThings)[number];

/** What can be seen, in the order in which it is asked. */
export const seenThings = [
  'no bubbles',
  'at the surface',
  'lying still',
  'cramped',
  'white ring',
  'milky',
  'growths',
  'cloudy',
  'many dead',
  'others lively',
] as const;
export type SeenThing = (typeof seenThings)[number];

/** What was said of a tub in trouble. */
export interface Troubled {
  readonly changed: readonly ChangedThing[];
  readonly seen: readonly SeenThing[];
}

export interface Trouble extends Logged, Troubled {
  readonly tubId: number;
}

/** Found dead in a tub within seven days: from so many on something is wrong with it (common practice, no source). */
export const severalDead = 3;

/** Days after the day of the trouble on which the tub is looked at twice (our choice). */
export const troubleLookDays = 3;
