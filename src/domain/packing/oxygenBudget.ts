import { airOxygenShare, type Bag, gasOxygenMgL, surfaceDm2 } from './bag.ts';
import type { AtWarmth, Course } from './course.ts';

/**
 * Litres of water that an hour of transfer brings into balance with the gas, by dm² of surface.
 *
 * Gas above water counts only as fast as it gets into still water, however much of it there is: 10 L of pure oxygen over 10 L of water
 * kept 10 g/L of prawns at no more than 3.2 mg/L after 8 h (Coyle et al., *Macrobrachium rosenbergii*). Shaking on the road is not
 * counted on. A breathable bag has the film and the still water behind it one after the other.
 *
 * @param surfaceMH  speed through the surface of still water, m/h
 */
export const oxygenTransferLHDm2 = ({ kind }: Pick<Bag, 'kind'>, { filmMH }: AtWarmth, surfaceMH: number): number =>
  kind === 'ordinary' ? 10 * surfaceMH : 10 / (1 / surfaceMH + 1 / filmMH);

/** Oxygen in the water at the end of a step; with no hours yet, at packing. */
export interface OxygenThen {
  readonly hours: number;
  readonly mgL: number;
}

/**
 * Oxygen in a bag's water along the course, as long as `goesOn` says so.
 *
 *   V·dC/dt = K·(C_balance − C) − R        dG/dt = −K·(C_balance − C)
 *
 * K is the transfer, R what the animals use; the balance falls as the gas G above the water is used up. The water starts as an aired tub
 * has it, whatever the gas. Solved exactly within a step, in which the gas is held.
 *
 * @returns the last two: before the end, and at it
 */
export function oxygenAlong(
  bag: Bag,
  { massG, startSaturationMgL, steps, figures }: Course,
  goesOn: (then: OxygenThen) => boolean,
): readonly [OxygenThen, OxygenThen] {
  const gasFullMg = bag.gasL * gasOxygenMgL(bag.gasOxygenShare);
  const timesAir = bag.gasOxygenShare / airOxygenShare;
  const surface = surfaceDm2(bag);
  let gasMg = gasFullMg;
  let before: OxygenThen = { hours: 0, mgL: startSaturationMgL };
  let then = before;
  for (const step of steps) {
    if (!goesOn(then)) break;
    const left = bag.kind === 'breathable' ? 1 : Math.max(0, gasMg) / gasFullMg;
    const transferLH = surface * oxygenTransferLHDm2(bag, step.at, figures.surfaceMH);
    const usedMgH = bag.animals * massG * step.at.oxygenUseMgGH;
    const steadyMgL = step.at.saturationMgL * timesAir * left - usedMgH / transferLH;
    const stays = Math.exp((-transferLH * step.stepHours) / bag.waterL);
    const mgL = Math.max(0, steadyMgL + (then.mgL - steadyMgL) * stays);
    gasMg -= bag.waterL * (mgL - then.mgL) + usedMgH * step.stepHours;
    before = then;
    then = { hours: step.hours, mgL };
  }
  return [before, then];
}

/** Hours until the water holds less oxygen than the least; infinite where it does not on the course. */
export function oxygenHours(bag: Bag, course: Course): number {
  const least = course.figures.oxygenLeastMgL;
  const [before, then] = oxygenAlong(bag, course, ({ mgL }) => mgL >= least);
  if (then.mgL >= least) return Number.POSITIVE_INFINITY;
  if (then.hours === 0) return 0;
  return before.hours + ((then.hours - before.hours) * (before.mgL - least)) / (before.mgL - then.mgL);
}
