import { eggsLostC } from './incubation.ts';
import { type RateCurve, type RateSupport, supportAt, valueAt } from './rateCurve.ts';
import { type RateSpread, scaledSpread } from './rateSpread.ts';
import { type DevelopmentSettings, developmentDefaults } from './settings.ts';

/** Lengths over which the reported broods are laid, mm. */
const [smallestMm, largestMm] = [15, 23];
/** Between these lengths a female begins to breed; over the last broods no longer grow, mm (assumption). */
const [immatureMm, breedingMm, mostMm] = [10, 13, 28];

/** 10 and 90 % of a brood, as a factor: 20 to 30 are the popular figure, 51 the highest reported. */
const broodFactor: RateSpread = { median: 1, low: 0.6, high: 1.4 };

/**
 * Young that hatch from one brood at a good temperature, by the female's length.
 *
 *   n = 40·(L/20)³        fading to nothing from 13 to 10 mm; held over 28 mm
 *
 * @param femaleMm  L, tip of the rostrum to the end of the tail, mm; 15 to 23 laid over published figures, else assumed
 * Error: 10 to 90 % is 0.6 to 1.4 times the median. Temperature from 24 to 32 °C does not change it (Tropea et al. 2015, abstract read).
 * Source: 21 to 51 a hatch, larger females more (Nur & Christianus 2013, abstract read); the largest of three classes, 15–17, 18–20, 21–23 mm,
 * had most (Turk. J. Vet. Anim. Sci. 44(2), abstract read). That 21 belongs to 16 mm and 51 to 22 mm is assumed; the cube follows
 * *Exopalaemon modestus*, whose broods are isometric with size (abstract read). The 40 is a setting.
 * Checked: tests/published/broodSize.csv.
 */
export function broodSize(femaleMm: number, settings: DevelopmentSettings = developmentDefaults): RateSpread {
  const length = Math.min(mostMm, Math.max(immatureMm, femaleMm));
  const breeding = Math.min(1, (length - immatureMm) / (breedingMm - immatureMm));
  return scaledSpread(broodFactor, settings.youngAt20Mm * (length / 20) ** 3 * breeding);
}

/** What the brood of a length rests on. */
export const broodSupport = (femaleMm: number): RateSupport =>
  femaleMm >= smallestMm && femaleMm <= largestMm ? 'interpolated' : 'assumed';

/** Share of the way from a hatch to the next eggs that a day goes, by temperature. */
const readiness: RateCurve = [
  { at: 17, value: 0, from: 'assumed' },
  { at: 20, value: 1 / 25, from: 'assumed' },
  { at: 24, value: 1 / 12, from: 'assumed' },
  { at: 28, value: 1 / 9, from: 'assumed' },
];
/** Below this a resting female waits for warmer water, °C (assumption). */
const coolestSpawnC = 18;

/** 10 and 90 % of the days between broods, as a factor. */
export const restDaysFactor: RateSpread = { median: 1, low: 0.6, high: 2 };

/**
 * Days from a hatch to the next eggs under the tail: 12 at 24 °C (a setting), 25 at 20, 9 from 28 °C; straight lines in the rate between.
 * Null under 18 °C, where she waits, and from 32 °C, where eggs are lost.
 *
 * @param tempC  °C; all of it assumed
 * Error: 10 to 90 % is 0.6 to 2 times this (`restDaysFactor`).
 * Source: 1 to 2 weeks in warmth, several weeks or a stop in cool months: common practice, no source. A saddle stands 10 to 12 days before
 * the first eggs (a keeper's log of a sister species at 24 to 26 °C).
 */
export function broodRestDays(tempC: number, settings: DevelopmentSettings = developmentDefaults): number | null {
  if (tempC < coolestSpawnC || tempC >= eggsLostC) return null;
  return settings.restDaysAt24C / developmentDefaults.restDaysAt24C / valueAt(readiness, tempC);
}

const berried: RateCurve = [
  { at: 16, value: 0, from: 'assumed' },
  { at: 18, value: 0.05, from: 'assumed' },
  { at: 20, value: 0.15, from: 'assumed' },
  { at: 24, value: 0.5, from: 'assumed' },
  { at: 28, value: 0.65, from: 'assumed' },
  { at: eggsLostC, value: 0, from: 'published' },
];

/** 10 and 90 % of the share with eggs, as a factor. */
export const berriedFactor: RateSpread = { median: 1, low: 0.5, high: 1.4 };

/**
 * Share of grown females that carry eggs at a steady temperature: 0 up to 16 °C, 0.05 at 18, 0.15 at 20, 0.5 at 24, 0.65 at 28, 0 from 32 °C;
 * straight lines between.
 *
 * @param tempC  °C; the order is published, the shares are assumed, but for none at 32 °C
 * Error: 10 to 90 % is 0.5 to 1.4 times this (`berriedFactor`).
 * Source: most at 28 °C, none kept at 32 °C (Tropea et al. 2015, abstract read); more eggs at 26 than at 23 and 20 °C (Serezli et al. 2017,
 * abstract read); *N. serrata* carries none under 20 °C and more as it warms (Dudgeon 1985, abstract read); *N. davidi* in a spring of 17 to
 * 20 °C has a longer season for it (Onuki 2021, abstract read); 50 to 80 % of mature females of *Caridina sakishimensis* in the main season
 * (Soomro et al. 2011, abstract read). Checked: tests/published/temperatureOrders.csv, breedingCool.csv.
 */
export const berriedShare = (tempC: number): number => valueAt(berried, tempC);

/** What the share at a temperature rests on. */
export const berriedSupport = (tempC: number): RateSupport => supportAt(berried, tempC);
