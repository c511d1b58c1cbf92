import { unionisedShare } from '../water/ammonia.ts';
import { acuteCriterionMgNL } from '../water/criteria.ts';
import { oxygenSaturationMgL, standardPressureKPa } from '../water/oxygen.ts';
import { bodyMassG } from './bodyMass.ts';
import type { PackingFigures } from './figures.ts';
import { ammoniaMgGH, massLaws, oxygenUseMgGH, timesMeanRate } from './metabolism.ts';
import { type Way, warmestC } from './wayTemperature.ts';

/** Bags are reckoned this far, h; the rates were not measured on animals that fasted longer. */
export const horizonHours = 168;

const stepHours = 0.25;

/** What happens in the water of any bag on a way, by gram of animal; one step of it. */
export interface CourseStep {
  /** Since packing, at the end of the step. */
  readonly hours: number;
  readonly stepHours: number;
  /** The warmest water of the step, °C. */
  readonly tempC: number;
  readonly oxygenUseMgGH: number;
  /** Oxygen in balance with air, mg/L. */
  readonly saturationMgL: number;
  /** Ammonia given off since packing, mg N by g of animal. */
  readonly ammoniaMgNG: number;
  /** Oxygen used since packing, mg by g of animal. */
  readonly oxygenUsedMgG: number;
  /** Total ammonia that the water may hold, mg N/L. */
  readonly ammoniaMostMgNL: number;
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
 * Reckons a way through in steps of a quarter of an hour, each with its warmest water.
 *
 * Total ammonia may reach what holds the un-ionised limit at the pH of packing, and not more than the one-hour criterion of US EPA 1999
 * (no salmon or trout), which bounds water under pH 6.5. The water holds no ammonia when it is packed.
 */
export function courseOf({ lengthMm, way, ph }: Travel, figures: PackingFigures): Course {
  const massG = bodyMassG(lengthMm, figures.massMgMm3);
  const oxygenTimes = figures.smallUseMore ? timesMeanRate(massLaws.oxygen, massG) : 1;
  const ammoniaTimes = figures.smallUseMore ? timesMeanRate(massLaws.ammonia, massG) : 1;
  const acuteMgNL = acuteCriterionMgNL(Math.max(ph, 6.5));
  const steps: CourseStep[] = [];
  let ammoniaMgNG = 0;
  let oxygenUsedMgG = 0;
  for (let hours = stepHours; hours <= horizonHours; hours += stepHours) {
    const tempC = Math.max(warmestC(way.startC, way.warmC, hours - stepHours), warmestC(way.startC, way.warmC, hours));
    const oxygenUse = oxygenTimes * oxygenUseMgGH(tempC);
    ammoniaMgNG += ammoniaTimes * ammoniaMgGH(tempC) * stepHours;
    oxygenUsedMgG += oxygenUse * stepHours;
    steps.push({
      hours,
      stepHours,
      tempC,
      oxygenUseMgGH: oxygenUse,
      saturationMgL: oxygenSaturationMgL(tempC, standardPressureKPa),
      ammoniaMgNG,
      oxygenUsedMgG,
      ammoniaMostMgNL: Math.min(figures.nh3MostMgNL / unionisedShare(ph, tempC), acuteMgNL),
    });
  }
  const startSaturationMgL = oxygenSaturationMgL(way.startC, standardPressureKPa);
  return { way, massG, startSaturationMgL, steps, figures };
}
