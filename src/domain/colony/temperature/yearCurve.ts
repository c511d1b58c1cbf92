import type { LocalDay, MonthDay } from '../../day.ts';
import { type ReadDay, readDays, type TempPoint } from './byDay.ts';
import { dayNumber, monthDayAt, yearAngle } from './dayNumber.ts';
import { inverted, type Symmetric, squareOf, type Three, timesColumn } from './threeUnknowns.ts';
import { weatherDays } from './weather.ts';
import { type Hemisphere, type YearPrior, yearPrior } from './yearPrior.ts';

/** How warm a rack is over the year. */
export interface YearCurve {
  /** Expected temperature of a day, °C. */
  readonly meanOn: (day: LocalDay) => number;
  /** Standard deviation of a day's temperature about `meanOn`: weather, and the curve's own doubt, °C. */
  readonly sdOn: (day: LocalDay) => number;
  /** The curve's own doubt alone, °C. */
  readonly doubtOn: (day: LocalDay) => number;
  /** Standard deviation of a day about the true curve, °C. */
  readonly weatherSdC: number;
  readonly meanC: number;
  /** Half the way from the coldest time of the year to the warmest, °C, 0 and up. */
  readonly amplitudeC: number;
  readonly warmestOn: MonthDay;
  /** Readings that the curve rests on, misread ones included; 0: it is the prior. */
  readonly readings: number;
}

/** Error of a thermometer and of the hour it was read at, °C (assumption). */
export const readingSdC = 0.5;
/** Readings this far apart tell as much as independent ones, days: twice the correlation time, after the theory of such processes. */
const spellDays = 2 * weatherDays;
/** A reading weighs half after this, as racks are moved and rooms change, days (assumption). */
const halfLifeDays = 730;
/** Weight of the prior weather, in independent readings. */
const priorSpells = 5;
/** Within this many standard deviations a reading counts in full (Huber's weights, the first rounds). */
const fullSds = 1.5;
/** From this many on it does not count at all (Tukey's biweight, the last rounds). */
const noneSds = 6;
const huberRounds = 5;
const rounds = 10;

interface Row {
  readonly base: Three;
  readonly tempC: number;
  /** Days read in the same spell of weather, this one included. */
  readonly inSpell: number;
  readonly fresh: number;
}

interface Fit {
  readonly beta: Three;
  readonly covariance: Symmetric;
  readonly weatherSdC: number;
}

/**
 * Yearly curve of a rack from all readings of its tubs.
 *
 *   T(day) = m + a·cos φ + b·sin φ, φ = 2π·(day − 25 July)/365.2425
 *
 * Least squares on m, a and b drawn to `yearPrior`, on the median of each day, with robust weights so that a misread value does not bend it.
 * Weather lasts, so the days of a fortnight count as one, however many were read; they halve in weight in two years.
 *
 * @param points      in any order, of any number of tubs; none gives the prior
 * @param hemisphere  when the year is warm, if known; null: told by the readings alone
 * Error: `sdOn`. Days beyond the readings follow the curve: that is extrapolation, and `doubtOn` grows to the prior's where a season was not read.
 * Source: harmonic regression; Huber's and Tukey's weights; n/(2τ) independent readings of a process with correlation time τ (from memory).
 */
export function fitYearCurve(points: readonly TempPoint[], hemisphere: Hemisphere | null = null): YearCurve {
  const prior = yearPrior(hemisphere);
  return curveOf(fitted(rowsOf(readDays(points)), prior), points.length);
}

function rowsOf(days: readonly ReadDay[]): Row[] {
  const spellOf = (number: number): number => Math.floor(number / spellDays);
  const inSpell = new Map<number, number>();
  for (const { number } of days) inSpell.set(spellOf(number), (inSpell.get(spellOf(number)) ?? 0) + 1);
  const latest = days.at(-1)?.number ?? 0;
  return days.map(({ number, tempC }) => ({
    base: baseAt(number),
    tempC,
    inSpell: inSpell.get(spellOf(number)) ?? 1,
    fresh: 0.5 ** ((latest - number) / halfLifeDays),
  }));
}

const baseAt = (number: number): Three => {
  const angle = yearAngle(number);
  return [1, Math.cos(angle), Math.sin(angle)];
};

const onCurve = ([m, a, b]: Three, [one, cos, sin]: Three): number => m * one + a * cos + b * sin;

function fitted(rows: readonly Row[], prior: YearPrior): Fit {
  const [meanWeight, swingWeight] = [1 / prior.meanSdC ** 2, 1 / prior.swingSdC ** 2];
  let fit: Fit = {
    beta: [prior.meanC, prior.julyC, 0],
    covariance: [1 / meanWeight, 0, 0, 1 / swingWeight, 0, 1 / swingWeight],
    weatherSdC: prior.weatherSdC,
  };
  for (let round = 0; round < rounds && rows.length > 0; round++) {
    const { beta, weatherSdC } = fit;
    let [mm, mc, ms, cc, cs, ss] = [meanWeight, 0, 0, swingWeight, 0, swingWeight];
    let [mt, ct, st] = [meanWeight * prior.meanC, swingWeight * prior.julyC, 0];
    let [squares, spells] = [priorSpells * prior.weatherSdC ** 2, priorSpells];
    for (const { base, tempC, inSpell, fresh } of rows) {
      const off = tempC - onCurve(beta, base);
      const believed = round === 0 ? 1 : robustWeight(off / weatherSdC, round);
      const weight = (believed * fresh) / (inSpell * weatherSdC ** 2 + readingSdC ** 2);
      const [, cos, sin] = base;
      mm += weight;
      mc += weight * cos;
      ms += weight * sin;
      cc += weight * cos * cos;
      cs += weight * cos * sin;
      ss += weight * sin * sin;
      mt += weight * tempC;
      ct += weight * cos * tempC;
      st += weight * sin * tempC;
      if (round > 0) squares += (believed * off ** 2) / inSpell;
      if (round > 0) spells += believed / inSpell;
    }
    const covariance = inverted([mm, mc, ms, cc, cs, ss]);
    fit = { beta: timesColumn(covariance, [mt, ct, st]), covariance, weatherSdC: Math.sqrt(squares / spells) };
  }
  return fit;
}

function robustWeight(sds: number, round: number): number {
  const far = Math.abs(sds);
  if (round <= huberRounds) return far <= fullSds ? 1 : fullSds / far;
  return far >= noneSds ? 0 : (1 - (far / noneSds) ** 2) ** 2;
}

function curveOf({ beta, covariance, weatherSdC }: Fit, readings: number): YearCurve {
  const doubtVarOn = (day: LocalDay): number => squareOf(covariance, baseAt(dayNumber(day)));
  return {
    meanOn: (day) => onCurve(beta, baseAt(dayNumber(day))),
    sdOn: (day) => Math.sqrt(weatherSdC ** 2 + doubtVarOn(day)),
    doubtOn: (day) => Math.sqrt(doubtVarOn(day)),
    weatherSdC,
    meanC: beta[0],
    amplitudeC: Math.hypot(beta[1], beta[2]),
    warmestOn: monthDayAt(Math.atan2(beta[2], beta[1])),
    readings,
  };
}
