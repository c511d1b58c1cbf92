import type { Random } from './random.ts';

/** The animals of a tub as they really are; parts of an animal are on their way to being one. */
export interface Colony {
  saleable: number;
  juveniles: number;
}

/** Animals that a tub of the demo business bears; growth stops there. */
const capacity = 120;
/** Young that live on, per female and day, in warm water and without crowding. */
const broodsPerDay = 0.11;
/** Days from shrimplet to saleable in warm water. */
const growthDays = 85;
/** Part of the adults that dies a day. */
const deathsPerDay = 0.002;
/** Temperatures between which carrying and growing go from nothing to full speed, °C. */
const carryingC = [17, 23.5] as const;
const growingC = [13, 23.5] as const;

const speed = (tempC: number, [none, full]: readonly [number, number]): number =>
  Math.min(1, Math.max(0, (tempC - none) / (full - none)));

/** How fully a tub breeds, by its role; in the others most females are taken out. */
export const breeds = { breeding: 1, raising: 0.5, selling: 0.25, apart: 0.3 } as const;

/** Lets a day pass. Invented figures that give a tub a plausible year; nothing is to be learnt from them. */
export function growDay(colony: Colony, tempC: number, breeding: number): void {
  const { saleable, juveniles } = colony;
  const room = Math.max(0, 1 - (saleable + juveniles) / capacity);
  const born = saleable * 0.5 * broodsPerDay * breeding * speed(tempC, carryingC) * room;
  const grown = (juveniles * speed(tempC, growingC)) / growthDays;
  colony.juveniles = juveniles + born - grown;
  colony.saleable = saleable + grown - saleable * deathsPerDay;
}

const berriedIn = ({ saleable }: Colony, tempC: number): number =>
  Math.round(saleable * 0.5 * 0.35 * speed(tempC, carryingC));

/**
 * What of a tub's animals shows in each way of counting, as a part; `saleable` is left to the tub where animals are seen by eye. `scatter`: how
 * far one time differs from the next, standard deviation of the logarithm. Invented, inside what is common practice.
 */
const looks = {
  full: { saleable: 0.98, juveniles: 0.6, berried: 0.85, scatter: 0.02 },
  dish: { saleable: null, juveniles: 0.3, berried: 0.35, scatter: 0.16 },
  glance: { saleable: null, juveniles: 0.3, berried: 0.35, scatter: 0.24 },
} as const;

/** A count as the two would take it down. */
export interface Looked {
  readonly saleable: number;
  readonly juveniles: number;
  readonly berried: number;
}

/** Parts of a tub's animals that show at its dish, from the shyest tub to the boldest. */
export const eyeShares = [0.35, 0.5] as const;

/** Counts a tub. @param eyeShare part of its animals that shows by eye */
export function look(
  colony: Colony,
  method: keyof typeof looks,
  { tempC, eyeShare }: { readonly tempC: number; readonly eyeShare: number },
  random: Random,
): Looked {
  const { saleable, juveniles, berried, scatter } = looks[method];
  const seen = (there: number, part: number, off: number): number =>
    Math.min(Math.floor(there), Math.round(there * part * Math.exp(off * random.normal())));
  return {
    saleable: seen(colony.saleable, saleable ?? eyeShare, scatter),
    juveniles: seen(colony.juveniles, juveniles, 0.2),
    berried: seen(berriedIn(colony, tempC), berried, scatter),
  };
}
