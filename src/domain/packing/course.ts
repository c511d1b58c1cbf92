import { unionisedShare } from '../water/ammonia.ts';
import { acuteCriterionMgNL } from '../water/criteria.ts';
import { oxygenSaturationMgL, standardPressureKPa } from '../water/oxygen.ts';
import { bodyMassG } from './bodyMass.ts';
import type { PackingFigures } from './figures.ts';
import { filmMH } from './film.ts';
import { ammoniaMgGH, massLaws, oxygenUseMgGH, timesMeanRate } from './metabolism.ts';
import { type Way, warmestC } from './wayTemperature.ts';

/** Bags are reckoned this far, h; the rates were not measured on animals that fasted longer. */
export const horizonHours = 168;

const stepHours = 0.5;

/** Water is reckoned at the next hundredth of a degree up, so that a step as warm as the one before is not reckoned again. */
const gradesPerC = 100;

/** What water of some warmth does, by gram of animal where it is theirs. */
export interface AtWarmth {
  /** °C. */
  readonly tempC: number;
  readonly oxygenUseMgGH: number;
  readonly ammoniaMgGH: number;
  /** Oxygen in balance with air, mg/L. */
  readonly saturationMgL: number;
  /** Total ammonia that the water may hold, mg N/L. */
  readonly ammoniaMostMgNL: number;
  /** Speed at which oxygen comes through the film of a breathable bag, m/h of water. */
  readonly filmMH: number;
}

/** What happens in the water of any bag on a way, by gram of animal; one step of it. */
export interface CourseStep {
  /** Since packing, at the end of the step. */
  readonly hours: number;
  readonly stepHours: number;
  readonly at: AtWarmth;
  /** Since packing, mg by g of animal. */
  readonly ammoniaMgNG: number;
  readonly oxygenUsedMgG: number;
}

/** The course of a way for animals of one size. */
export interface Course {
  readonly way: Way;
  readonly massG: number;
  readonly startSaturationMgL: number;
  readonly steps: readonly CourseStep[];
  readonly figures: PackingFigures;
}

/** Who travels, in what water and how. */
export interface Travel {
  readonly lengthMm: number;
  readonly way: Way;
  /** pH of the water when it is packed; taken to stay, though carbon dioxide lowers it. 4 to 10.5. */
  readonly ph: number;
}

/**
 * Reckons a way through in steps of half an hour, each with its warmest water.
 *
 * Total ammonia may reach what holds the un-ionised limit at the pH of packing, and not more than the one-hour criterion of US EPA 1999
 * (no salmon or trout), which bounds water under pH 6.5. The water holds no ammonia when it is packed.
 */
export function courseOf({ lengthMm, way, ph }: Travel, figures: PackingFigures): Course {
  const massG = bodyMassG(lengthMm, figures.massMgMm3);
  const atWarmth = warmthOf(massG, ph, figures);
  const steps: CourseStep[] = [];
  let ammoniaMgNG = 0;
  let oxygenUsedMgG = 0;
  let at: AtWarmth | null = null;
  for (let hours = stepHours; hours <= horizonHours; hours += stepHours) {
    const warmest = Math.max(
      warmestC(way.startC, way.warmC, hours - stepHours),
      warmestC(way.startC, way.warmC, hours),
    );
    const tempC = Math.ceil(warmest * gradesPerC - 1e-6) / gradesPerC;
    if (at === null || at.tempC !== tempC) at = atWarmth(tempC);
    ammoniaMgNG += at.ammoniaMgGH * stepHours;
    oxygenUsedMgG += at.oxygenUseMgGH * stepHours;
    steps.push({ hours, at, stepHours, ammoniaMgNG, oxygenUsedMgG });
  }
  const startSaturationMgL = oxygenSaturationMgL(way.startC, standardPressureKPa);
  return { way, massG, startSaturationMgL, steps, figures };
}

function warmthOf(massG: number, ph: number, figures: PackingFigures): (tempC: number) => AtWarmth {
  const oxygenTimes = figures.smallUseMore ? timesMeanRate(massLaws.oxygen, massG) : 1;
  const ammoniaTimes = figures.smallUseMore ? timesMeanRate(massLaws.ammonia, massG) : 1;
  const acuteMgNL = acuteCriterionMgNL(Math.max(ph, 6.5));
  return (tempC) => {
    const saturationMgL = oxygenSaturationMgL(tempC, standardPressureKPa);
    return {
      tempC,
      oxygenUseMgGH: oxygenTimes * oxygenUseMgGH(tempC),
      ammoniaMgGH: ammoniaTimes * ammoniaMgGH(tempC),
      saturationMgL,
      ammoniaMostMgNL: Math.min(figures.nh3MostMgNL / unionisedShare(ph, tempC), acuteMgNL),
      filmMH: filmMH(tempC, saturationMgL, figures.filmMlM2DayAtm),
    };
  };
}
