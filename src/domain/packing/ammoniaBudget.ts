import type { Bag } from './bag.ts';
import type { Course } from './course.ts';

/** Total ammonia in the water after a step of the course, mg N/L: nothing takes it away, no film lets it out. */
export const ammoniaMgNL = ({ animals, waterL }: Bag, massG: number, ammoniaMgNG: number): number =>
  (animals * massG * ammoniaMgNG) / waterL;

/** Hours until total ammonia passes what the water may hold; infinite where it does not on the course. */
export function ammoniaHours(bag: Bag, { massG, steps }: Course): number {
  let before = { hours: 0, times: 0 };
  for (const { hours, ammoniaMgNG, at } of steps) {
    const times = ammoniaMgNL(bag, massG, ammoniaMgNG) / at.ammoniaMostMgNL;
    if (times > 1) {
      return before.hours + ((hours - before.hours) * (1 - before.times)) / (times - before.times);
    }
    before = { hours, times };
  }
  return Number.POSITIVE_INFINITY;
}
