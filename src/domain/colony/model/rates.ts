import { berriedShare, broodSize } from '../development/brood.ts';
import { crowding } from '../development/crowding.ts';
import { dailyDeath } from '../development/death.ts';
import { femaleShare } from '../development/femaleShare.ts';
import { daysToSaleable24C, growthPerDay } from '../development/growth.ts';
import { eggProgressPerDay } from '../development/incubation.ts';
import { lifeDays } from '../development/lifeDays.ts';
import { z90 } from '../development/rateSpread.ts';
import type { DayTemp } from './tub.ts';

/** What a day's water does to a tub by the books; the same for all members. Shares and hazards a day. */
export interface DailyRates {
  /** Share of the way from hatching to saleable. */
  readonly pace: number;
  /** By how much that grows for each standard deviation that the water is warmer than thought. */
  readonly paceSlope: number;
  /** Share of the time that a brood is carried. */
  readonly eggPace: number;
  readonly eggPaceSlope: number;
  /** Share of the free females that begin a brood. */
  readonly broodStart: number;
  /** Young a hatch. */
  readonly broodYoung: number;
  readonly eggDeath: number;
  readonly shrimpletDeath: number;
  readonly juvenileDeath: number;
  readonly saleableDeath: number;
  /** Share of females among those that grow up, and its standard deviation. */
  readonly femaleShare: number;
  readonly femaleSd: number;
}

/** Breeders outgrow the length at which their line is saleable by this much, and are this long at least, mm (assumption). */
const [breederOverMm, breederMm] = [4, 18];

/** Hazard of a saleable animal at a temperature, a day: what the water does, and age. */
export const saleableDeathAt = (tempC: number): number =>
  dailyDeath('saleable', tempC).median + Math.LN2 / lifeDays.median;

/** Rates of a day from its temperature and the line's saleable length. */
export function ratesOf({ tempC, sdC }: DayTemp, saleableMm: number): DailyRates {
  const days24C = daysToSaleable24C(saleableMm).median;
  const slope = (of: (tempC: number) => number): number => (of(tempC + sdC) - of(tempC - sdC)) / 2;
  const eggPace = eggProgressPerDay(tempC);
  const carrying = berriedShare(tempC);
  const sexes = femaleShare(tempC);
  return {
    pace: growthPerDay(tempC) / days24C,
    paceSlope: slope(growthPerDay) / days24C,
    eggPace,
    eggPaceSlope: slope((at) => eggProgressPerDay(at)),
    // In balance, as many begin as hatch: start·(1 − share) = pace·share.
    broodStart: (eggPace * carrying) / (1 - carrying),
    broodYoung: broodSize(Math.max(breederMm, saleableMm + breederOverMm)).median,
    eggDeath: dailyDeath('egg', tempC).median,
    shrimpletDeath: dailyDeath('shrimplet', tempC).median,
    juvenileDeath: dailyDeath('juvenile', tempC).median,
    saleableDeath: saleableDeathAt(tempC),
    femaleShare: sexes.median,
    femaleSd: (sexes.high - sexes.low) / (2 * z90),
  };
}

/** Steps of the table below, animals a litre; beyond the last it is held. */
export const crowdingStep = 0.05;
const mostPerLitre = 200;

/** `crowding` from 0 up, at hand for the daily step. */
export const crowdingTable: Float32Array = Float32Array.from({ length: mostPerLitre / crowdingStep + 1 }, (_, nth) =>
  crowding(nth * crowdingStep),
);
