import type { Random } from '../../seed/random.ts';

/** An unheated room. */
export interface Room {
  /** Water by day, °C. */
  readonly tempC: Float64Array;
  readonly meanC: number;
  /** Half the way from the coldest time to the warmest, °C. */
  readonly swingC: number;
}

/** Where day 0 of the year's wave lies: the warmest day is a quarter of a year after day 110. */
const springDay = 110;
const weatherKept = 0.85;
const weatherC = 0.55;

/** Wave of a year at a day of the simulation, −1 to 1. */
export const yearWave = (day: number): number => Math.sin((2 * Math.PI * (day - springDay)) / 365.25);

/** A room drawn by chance: 19 to 23 °C over the year, 1.5 to 4 °C warmer in summer, with weather. */
export function openRoom(days: number, random: Random): Room {
  const meanC = 21 + 0.9 * random.normal();
  const swingC = random.between(1.5, 4);
  let weather = 0;
  const tempC = Float64Array.from({ length: days }, (_, day) => {
    weather = weatherKept * weather + weatherC * random.normal();
    return meanC + swingC * yearWave(day) + weather;
  });
  return { tempC, meanC, swingC };
}
