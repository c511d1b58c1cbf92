import { type RateCurve, valueAt } from './rateCurve.ts';
import { type RateSpread, scaledSpread } from './rateSpread.ts';
import { type DevelopmentSettings, developmentDefaults } from './settings.ts';

export const developmentStages = ['egg', 'shrimplet', 'juvenile', 'saleable'] as const;
export type DevelopmentStage = (typeof developmentStages)[number];

/** Days at 24 °C that a hatchling counts as a shrimplet; most losses fall here (assumption). */
export const shrimpletDays24C = 30;
/** Of the losses on the way to saleable, the share that falls to shrimplets (assumption). */
const shrimpletLosses = 0.7;

/** Daily hazard of carried eggs where nothing is wrong: dropped and failed eggs (assumption; a brood is counted as hatched). */
const eggHazard = 0.002;
/** Daily hazard of saleable animals without old age, which is `lifeDays`: about three in ten a year (assumption). */
const saleableHazard = 0.001;
/** Nothing dies faster than this, a day: six of seven. */
const mostHazard = 2;

const ln = Math.log;

/** Logarithm of how many times more swimming animals die than at a good temperature. */
const animalStress: RateCurve = [
  { at: 2, value: ln(6), from: 'assumed' },
  { at: 5, value: ln(4), from: 'assumed' },
  { at: 10, value: ln(2), from: 'assumed' },
  { at: 15, value: ln(1.2), from: 'assumed' },
  { at: 18, value: 0, from: 'assumed' },
  { at: 30, value: 0, from: 'assumed' },
  { at: 32, value: ln(1.5), from: 'assumed' },
  { at: 34, value: ln(8), from: 'assumed' },
  { at: 36, value: ln(80), from: 'assumed' },
  { at: 38, value: ln(400), from: 'assumed' },
];

/** Logarithm of how many times more eggs are lost than at a good temperature. */
const eggStress: RateCurve = [
  { at: 8, value: ln(25), from: 'assumed' },
  { at: 13, value: ln(10), from: 'assumed' },
  { at: 18, value: 0, from: 'assumed' },
  { at: 28, value: 0, from: 'assumed' },
  { at: 30, value: ln(10), from: 'assumed' },
  { at: 32, value: ln(125), from: 'assumed' },
  { at: 34, value: ln(500), from: 'assumed' },
  { at: 36, value: ln(1000), from: 'assumed' },
];

/** 10 and 90 % of the hazards, as factors. Eggs: at 32 °C from nearly all kept over 12 days to all lost, as both were seen. */
const eggFactor: RateSpread = { median: 1, low: 0.12, high: 2 };
const youngFactor: RateSpread = { median: 1, low: 0.4, high: 2 };
const saleableFactor: RateSpread = { median: 1, low: 0.4, high: 2.5 };

const capped = ({ median, low, high }: RateSpread): RateSpread => ({
  median: Math.min(mostHazard, median),
  low: Math.min(mostHazard, low),
  high: Math.min(mostHazard, high),
});

/**
 * Daily hazard of a stage, per day: the share alive after t days is exp(−hazard·t). Least from 18 to 28 °C (eggs) or 30 °C; cold and heat
 * multiply it, straight lines in the logarithm between the anchors. Old age is not in it, nor crowding (`crowding`).
 *
 *   shrimplet 0.7·H/30, juvenile 0.3·H/(T₁₅ − 30), H = −ln(survival to 15 mm, a setting: 0.6), T₁₅ days to 15 mm at 24 °C
 *
 * @param tempC  mean water temperature of the day, °C; all levels are assumed
 * Error: 10 to 90 % is 0.4 to 2 times for young, 0.4 to 2.5 for saleable animals, 0.12 to 2 for eggs; never over 2 a day.
 * Source: survival was high at 24, 28 and 32 °C for 90 days, yet every female that matured at 32 °C lost her eggs, while eggs brought there
 * hatched as many young (Tropea et al. 2015, abstract read): hence the wide band of eggs. Survival of two related palaemonids fell at 15 °C;
 * *Caridina nilotica* lives shorter below 10 and above 30 °C; *Cryphiops caementarius* is at its limit at 34 to 38 °C (abstracts read).
 * *N. davidi* bears much colder water and was found in an unheated brook in winter (Klotz et al. 2013, Weiperth et al. 2019, abstracts read).
 * Levels: 40 to 80 % grow up without fish, 10 to 25 % of a stock is lost over a winter: common practice, no source.
 * Checked: tests/published/temperatureOrders.csv.
 */
export function dailyDeath(
  stage: DevelopmentStage,
  tempC: number,
  settings: DevelopmentSettings = developmentDefaults,
): RateSpread {
  if (stage === 'egg') return capped(scaledSpread(eggFactor, eggHazard * Math.exp(valueAt(eggStress, tempC))));
  const stress = Math.exp(valueAt(animalStress, tempC));
  if (stage === 'saleable') return capped(scaledSpread(saleableFactor, saleableHazard * stress));
  const losses = -Math.log(settings.youngSurvival);
  const juvenileDays = Math.max(1, settings.daysTo15MmAt24C - shrimpletDays24C);
  const base =
    stage === 'shrimplet'
      ? (shrimpletLosses * losses) / shrimpletDays24C
      : ((1 - shrimpletLosses) * losses) / juvenileDays;
  return capped(scaledSpread(youngFactor, base * stress));
}
