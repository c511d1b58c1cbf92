import { type RateCurve, type RateSupport, supportAt, valueAt } from './rateCurve.ts';
import { type RateSpread, scaledSpread } from './rateSpread.ts';
import { type DevelopmentSettings, developmentDefaults } from './settings.ts';

/** Speed of growth, 1 at 24 °C. */
const speed: RateCurve = [
  { at: 11, value: 0, from: 'assumed' },
  { at: 15, value: 0.3, from: 'assumed' },
  { at: 20, value: 0.6, from: 'assumed' },
  { at: 24, value: 1, from: 'published' },
  { at: 28, value: 1.1, from: 'published' },
  { at: 32, value: 1, from: 'published' },
  { at: 36, value: 0, from: 'assumed' },
];

/** By how much the speed may be off for each degree away from 24 °C, as a logarithm (assumption: ± 20 % at 20 °C). */
const doubtPerDegree = 0.05;

/**
 * Speed of growth relative to a steady 24 °C, straight lines between the anchors: 0 at 11, 0.3 at 15, 0.6 at 20, 1 at 24, 1.1 at 28, 1 at
 * 32, 0 from 36 °C.
 *
 * @param tempC  mean water temperature of the day, °C; 24 to 32 published or between, else assumed
 * Error: `growthSpread`.
 * Source: 24, 28 and 32 °C: level in weight by day 90, 28 ahead for the first 30 days, Tropea et al. 2015 (abstract read); the tenth is our
 * reading of that lead. 20 °C: 16 to 24 weeks to saleable where 23 to 24 °C take 10 to 13, common practice, no source. 11 °C: lower end of
 * activity of the related *Caridina nilotica* (African Zoology 18(2), abstract read). 15 and 36 °C: assumed; moults alone of two related
 * palaemonids quicken 2.2 times from 15 to 30 °C, and they grow more per moult up to 25 °C (Iheringia, abstract read).
 * Checked: tests/published/moultIntervals.csv and temperatureOrders.csv.
 */
export const growthPerDay = (tempC: number): number => valueAt(speed, tempC);

/** Speed of growth with its spread: certain at 24 °C, where it is 1 by definition, ± 5 % more for each degree away. */
export function growthSpread(tempC: number): RateSpread {
  const median = growthPerDay(tempC);
  const factor = Math.exp(doubtPerDegree * Math.abs(tempC - 24));
  return { median, low: median / factor, high: median * factor };
}

/** What the speed at a temperature rests on. */
export const growthSupport = (tempC: number): RateSupport => supportAt(speed, tempC);

/** Length at hatching, mm: 2.3 (Nur & Christianus 2013, abstract read). */
const hatchMm = 2.3;
/** Length that growth tends to, mm: mature animals of 23 to 30 mm (Mahmoud et al. 2020, abstract read). */
const largestMm = 30;
/** Lengths beyond this are taken as this: growth is too slow there to tell, mm. */
const slowestMm = 28;

/** Length from which females carry eggs, mm: the smallest class of a study of egg numbers is 15 to 17 mm (Turk. J. Vet. Anim. Sci. 44(2)). */
export const matureMm = 16;

/**
 * 10 and 90 % of the days to a length, as a factor. Wide on purpose: it spans the laboratory, where females carry eggs within 90 days at 24
 * to 28 °C (Tropea et al. 2015) or 75 at 25 to 28 °C, and a warm stream, about 7 months, which its authors found in their tanks as well
 * (Schoolmann & Arndt 2018, abstract read). The couple's own log narrows it.
 */
const growthDaysFactor: RateSpread = { median: 1, low: 0.68, high: 2.6 };

/**
 * Days from hatching to a length at a steady 24 °C, uncrowded and well fed.
 *
 *   t = ln((30 − 2.3)/(30 − L)) / K        K such that 15 mm take 75 days (a setting)
 *
 * @param saleableMm  L, mm; 2.3 and less take no time, over 28 as 28
 * Error: 10 to 90 % is 0.68 to 2.6 times the median, see above.
 * Source: the form is von Bertalanffy's, as fitted to the related *Exopalaemon modestus*; 15 mm: see `developmentDefaults`.
 * Checked: tests/published/lifeHistory.csv.
 */
export function daysToSaleable24C(saleableMm: number, settings: DevelopmentSettings = developmentDefaults): RateSpread {
  const timeTo = (mm: number): number => Math.log((largestMm - hatchMm) / (largestMm - mm));
  const reached = Math.min(slowestMm, Math.max(hatchMm, saleableMm));
  return scaledSpread(growthDaysFactor, (settings.daysTo15MmAt24C * timeTo(reached)) / timeTo(15));
}

/** What the days to a length rest on: lengths are published at hatching, when mature and fully grown. */
export const lengthSupport = (mm: number): RateSupport => (mm >= hatchMm && mm <= 23 ? 'interpolated' : 'assumed');
