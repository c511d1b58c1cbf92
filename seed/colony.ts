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

export const berriedIn = ({ saleable }: Colony, tempC: number): number =>
  Math.round(saleable * 0.5 * 0.35 * speed(tempC, carryingC));

/** How far a count may be off, as a part of what is there. */
export const countError = { full: 0.01, dish: 0.06, glance: 0.09 } as const;

export function seen(there: number, error: number, random: Random): number {
  return Math.max(0, Math.floor(there * (1 + error * random.normal())));
}
