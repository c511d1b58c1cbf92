import { airOxygenShare, type Bag, gasOxygenMgL, surfaceDm2 } from './bag.ts';
import type { Course, CourseStep } from './course.ts';
import type { PackingFigures } from './figures.ts';

/** mg of oxygen in 1 mL of gas at 0 °C and 1 atm: 32.00 g/mol over 22.414 L/mol. */
const mgPerMl = 32 / 22.414;

/** Energy with which the film's permeability rises with warmth, J/mol. Source: METU, Polymer International 30: 109–113, 1993. */
const filmActivationJMol = 31_300;

/**
 * Speed at which oxygen comes through a breathable bag's film, m/h of water: its flow by atm over the oxygen that water holds by atm.
 *
 *   P₂₅·e^(−E/R·(1/T − 1/298.15)) / S
 */
function filmMH({ tempC, saturationMgL }: CourseStep, { filmMlM2DayAtm }: PackingFigures): number {
  const warmth = Math.exp((-filmActivationJMol / 8.314462618) * (1 / (tempC + 273.15) - 1 / 298.15));
  const mgM2HAtm = (filmMlM2DayAtm * mgPerMl * warmth) / 24;
  const mgM3Atm = (saturationMgL * 1000) / airOxygenShare;
  return mgM2HAtm / mgM3Atm;
}

/**
 * Litres of water that an hour of transfer brings into balance with the gas: speed by surface.
 *
 * Gas above water counts only as fast as it gets into still water, however much of it there is: 10 L of pure oxygen over 10 L of water
 * kept 10 g/L of prawns at no more than 3.2 mg/L after 8 h (Coyle et al., *Macrobrachium rosenbergii*). Shaking on the road is not
 * counted on. A breathable bag has the film and the still water behind it one after the other.
 */
export function oxygenTransferLH(bag: Bag, step: CourseStep, figures: PackingFigures): number {
  const film = bag.kind === 'breathable' ? 1 / filmMH(step, figures) : 0;
  return (10 * surfaceDm2(bag)) / (1 / figures.surfaceMH + film);
}

/** Oxygen in the water at the end of a step. */
interface OxygenThen {
  readonly hours: number;
  readonly mgL: number;
}

/**
 * Oxygen in a bag's water along the course, a value a step.
 *
 *   V·dC/dt = K·(C_balance − C) − R        dG/dt = −K·(C_balance − C)
 *
 * K is the transfer, R what the animals use; the balance falls as the gas G above the water is used up. The water starts as an aired tub
 * has it, whatever the gas. Explicit steps of a quarter of an hour.
 */
export function oxygenAlong(bag: Bag, { massG, startSaturationMgL, steps, figures }: Course): OxygenThen[] {
  const gasFullMg = bag.gasL * gasOxygenMgL(bag.gasOxygenShare);
  const timesAir = bag.gasOxygenShare / airOxygenShare;
  let mgL = startSaturationMgL;
  let gasMg = gasFullMg;
  return steps.map((step) => {
    const left = bag.kind === 'breathable' ? 1 : Math.max(0, gasMg) / gasFullMg;
    const intoWaterMgH = oxygenTransferLH(bag, step, figures) * (step.saturationMgL * timesAir * left - mgL);
    const usedMgH = bag.animals * massG * step.oxygenUseMgGH;
    mgL = Math.max(0, mgL + ((intoWaterMgH - usedMgH) * step.stepHours) / bag.waterL);
    gasMg -= intoWaterMgH * step.stepHours;
    return { hours: step.hours, mgL };
  });
}

/** Hours until the water holds less oxygen than the least; infinite where it does not on the course. */
export function oxygenHours(bag: Bag, course: Course): number {
  const least = course.figures.oxygenLeastMgL;
  const along = [{ hours: 0, mgL: course.startSaturationMgL }, ...oxygenAlong(bag, course)];
  const under = along.findIndex(({ mgL }) => mgL < least);
  const [before, now] = [along[under - 1], along[under]];
  if (now === undefined) return Number.POSITIVE_INFINITY;
  if (before === undefined) return 0;
  return before.hours + ((now.hours - before.hours) * (before.mgL - least)) / (before.mgL - now.mgL);
}
