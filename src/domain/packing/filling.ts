import { type BagKind, filledBag } from './bag.ts';
import { type Course, horizonHours } from './course.ts';
import { leastBagL } from './practice.ts';
import { isSafeFor } from './safeHours.ts';

/** Most animals and most water in a bag. Common practice, no source. */
const mostInABag = 20;
export const mostBagL = 1;

/** Bags are filled in steps of this, L. */
export const fillStepL = 0.05;

/** Bags that are filled alike. */
export interface Filling {
  readonly bags: number;
  /** Animals in each. */
  readonly animals: number;
  readonly waterL: number;
  /** Air above it, L; 0 in a breathable bag. */
  readonly airL: number;
}

/** Water of all bags, L. */
export const waterInAllL = (fillings: readonly Filling[]): number =>
  fillings.reduce((sum, { bags, waterL }) => sum + bags * waterL, 0);

export const bagsInAll = (fillings: readonly Filling[]): number => fillings.reduce((sum, { bags }) => sum + bags, 0);

export const fillingOf = (kind: BagKind, bags: number, animals: number, waterL: number): Filling => ({
  bags,
  animals,
  waterL,
  airL: filledBag(kind, animals, waterL).gasL,
});

/** What a bag can be filled with, ascending, L. */
const volumesL = Array.from({ length: Math.round((mostBagL - leastBagL) / fillStepL) + 1 }, (_, step) =>
  Number((leastBagL + step * fillStepL).toFixed(2)),
);

/** Least water in which so many animals are safe for some hours, L, in steps of 0.05; null: none that fits a bag. */
function leastVolumeL(kind: BagKind, animals: number, course: Course, hours: number): number | null {
  let [low, high] = [0, volumesL.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (isSafeFor(filledBag(kind, animals, volumesL[middle] ?? mostBagL), course, hours)) high = middle;
    else low = middle + 1;
  }
  return volumesL[low] ?? null;
}

/**
 * The bags with the least water in all in which these animals are safe for some hours; of two ways with as much, the one with fewer bags.
 * The animals are spread evenly, each bag filled for its own number; the fullest come first. Null: no way lasts.
 */
export function leastFilling(kind: BagKind, animals: number, whole: Course, hours: number): readonly Filling[] | null {
  if (hours > horizonHours) return null;
  const course = { ...whole, steps: whole.steps.filter((step) => step.hours - step.stepHours < hours) };
  const least = new Map<number, number | null>();
  const leastFor = (number: number): number | null => {
    const known = least.get(number);
    if (known !== undefined) return known;
    const found = leastVolumeL(kind, number, course, hours);
    least.set(number, found);
    return found;
  };
  let best: readonly Filling[] | null = null;
  for (let most = Math.min(animals, mostInABag); most >= 1; most--) {
    const bags = Math.ceil(animals / most);
    const fuller = animals % bags;
    const spread = [
      { number: Math.floor(animals / bags) + 1, bags: fuller },
      { number: Math.floor(animals / bags), bags: bags - fuller },
    ].filter((group) => group.bags > 0);
    const way = spread.flatMap((group) => {
      const waterL = leastFor(group.number);
      return waterL === null ? [] : [fillingOf(kind, group.bags, group.number, waterL)];
    });
    if (way.length < spread.length) continue;
    // Sums of twentieths differ in the last digit.
    if (best === null || waterInAllL(way) < waterInAllL(best) - 1e-9) best = way;
  }
  return best;
}
