import { addDays, daysBetween, type LocalDay } from '../src/domain/index.ts';
import type { Random } from './random.ts';

/** A day's air outside. */
export interface Air {
  readonly lowC: number;
  readonly highC: number;
}

/** The unheated room of the tubs and the weather outside, day by day. */
export interface Room {
  /** Water in the middle of the rack, °C. */
  tempC(day: LocalDay): number;
  air(day: LocalDay): Air;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** −1 on the coldest day of the year to 1 on the warmest, half a year later. */
function season(day: LocalDay, coldestDay: number): number {
  const dayOfYear = daysBetween(`${day.slice(0, 4)}-01-01` as LocalDay, day);
  return -Math.cos((2 * Math.PI * (dayOfYear - coldestDay)) / 365.25);
}

/** Days past the last one for which there is weather, as forecasts look ahead. */
const daysAhead = 4;

/**
 * An inland place between mountains and sea: nights from about 0 °C in January to 18 °C in July, the room some weeks behind and between
 * 16 and 26 °C. Spells of weather last for days. All figures are invented.
 */
export function openRoom(random: Random, first: LocalDay, last: LocalDay): Room {
  const days = new Map<LocalDay, { tempC: number; air: Air }>();
  let spell = 0;
  let roomSpell = 0;
  for (let day = first; day <= addDays(last, daysAhead); day = addDays(day, 1)) {
    spell = 0.7 * spell + 1.5 * random.normal();
    roomSpell = 0.85 * roomSpell + 0.1 * spell;
    const lowC = 9 + 9 * season(day, 20) + spell;
    const highC = lowC + random.between(6, 10.5);
    const tempC = Math.min(26.4, Math.max(15.8, 20.9 + 4.2 * season(day, 30) + roomSpell));
    days.set(day, { tempC, air: { lowC: tenth(lowC), highC: tenth(highC) } });
  }
  const on = (day: LocalDay) => {
    const found = days.get(day);
    if (found === undefined) throw new Error(`the demo year has no weather for ${day}`);
    return found;
  };
  return { tempC: (day) => on(day).tempC, air: (day) => on(day).air };
}
