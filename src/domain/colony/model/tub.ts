import type { LocalDay } from '../../day.ts';

/** Water of a day: its mean and the standard deviation of what it may have been, °C. */
export interface DayTemp {
  readonly tempC: number;
  readonly sdC: number;
}

/** What the model of a colony needs to know of a tub. */
export interface ColonyTub {
  readonly id: number;
  /** Water in it, L, over 0. */
  readonly netLitres: number;
  /** Length at which its line is saleable, mm. */
  readonly saleableMm: number;
  /** Temperature of any day, past or ahead (`tubTemperature`). */
  readonly temps: (day: LocalDay) => DayTemp;
}
