import { type RateCurve, type RateSupport, supportAt, valueAt } from './rateCurve.ts';
import type { RateSpread } from './rateSpread.ts';
import { type DevelopmentSettings, developmentDefaults } from './settings.ts';

/** Below this no female is expected to carry eggs to the end at a steady temperature, °C (assumption). */
export const coolestEggsC = 16;
/** From here up females lose their eggs, °C (Tropea et al. 2015, abstract). */
export const eggsLostC = 32;

/** Share of the development done in a day. The zero of 13⅓ °C is where the line through 24 and 32 °C meets nothing: 224 degree-days. */
const progress: RateCurve = [
  { at: 40 / 3, value: 0, from: 'assumed' },
  { at: 24, value: 1 / 21, from: 'published' },
  { at: 27, value: 1 / 15, from: 'published' },
  { at: eggsLostC, value: 1 / 12, from: 'published' },
];

/** 10 and 90 % of the days eggs are carried, as a factor: 17 to 29 days at 24 °C. Keepers say 14 to 30 at 22 to 26 °C (common practice, no source). */
export const eggDaysFactor: RateSpread = { median: 1, low: 0.8, high: 1.4 };

/**
 * Share of an egg's development that a day does, 0 to 1: summed over days of any temperature it reaches 1 at hatching.
 *
 *   0 up to 13⅓ °C, then straight lines through 1/21 at 24, 1/15 at 27 and 1/12 at 32 °C; held above
 *
 * Eggs that are being lost to heat or cold still count here: `dailyDeath('egg', …)` takes them.
 *
 * @param tempC  mean water temperature of the day, °C; 24 to 32 published or between, 13 to 24 °C assumed
 * Error: see `eggDaysFactor`; below 20 °C unknown.
 * Source: 27 °C: 15 days, Nur & Christianus 2013, Asian J. Anim. Vet. Adv. 8: 108 (abstract read); 15 days at 25 to 28 °C, Mahmoud et al.
 * 2020, Biodiversitas 21: 2396 (abstract read). 24 and 32 °C: 21 and 12 days, a secondary page after Tropea et al. 2015, whose abstract
 * gives the order only. Days add up by rate summation (degree-days, as McMaster & Wilhelm 1997 take the day's mean).
 * Checked: tests/published/eggDays.csv.
 */
export const eggProgressPerDay = (tempC: number, settings: DevelopmentSettings = developmentDefaults): number =>
  (valueAt(progress, tempC) * developmentDefaults.eggDaysAt24C) / settings.eggDaysAt24C;

/**
 * Days from eggs under the tail to hatching at a steady temperature: 1 / `eggProgressPerDay`; null under 16 °C, where they are not
 * expected to be carried to the end, and from 32 °C, where they are lost.
 *
 * @param tempC  °C
 * Error: 10 to 90 % is 0.8 to 1.4 times this (`eggDaysFactor`). Sources there.
 */
export const incubationDays = (tempC: number, settings: DevelopmentSettings = developmentDefaults): number | null =>
  tempC >= coolestEggsC && tempC < eggsLostC ? 1 / eggProgressPerDay(tempC, settings) : null;

/** What the days at a temperature rest on. */
export const eggSupport = (tempC: number): RateSupport => supportAt(progress, tempC);
