import { type BagKind, filledBag } from './bag.ts';
import type { Course } from './course.ts';
import { safeHoursOn } from './safeHours.ts';

/** Water that the trade packs an adult dwarf shrimp in, from and to, L. Common practice, from sellers' pages, no source. */
const practiceL: Readonly<Record<BagKind, readonly [number, number]>> = {
  ordinary: [0.03, 0.04],
  breathable: [0.02, 0.03],
};

/** Least water in any bag, L: less tips, chills and heats fast. Common practice, no source. */
export const leastBagL = 0.2;

/** Common loading practice for a number of animals. */
export interface Practice {
  /** Water in all, L. */
  readonly fromL: number;
  readonly toL: number;
  /** How long it is safe: a bag of ten filled with the lesser by the strictest figures, one with the more by the mildest. */
  readonly fromHours: number;
  readonly toHours: number;
}

/** What the trade fills for these animals, and how long that is safe; fewer than ten are reckoned in a bag of their own. */
export function practiceOf(
  kind: BagKind,
  animals: number,
  courses: { readonly strict: Course; readonly mild: Course },
): Practice {
  const [from, to] = practiceL[kind];
  const inABag = Math.min(animals, 10);
  const waterFor = (number: number, each: number): number => Math.max(leastBagL, number * each);
  const hoursAt = (each: number, course: Course): number =>
    safeHoursOn(filledBag(kind, inABag, waterFor(inABag, each)), course).hours;
  return {
    fromL: waterFor(animals, from),
    toL: waterFor(animals, to),
    fromHours: hoursAt(from, courses.strict),
    toHours: hoursAt(to, courses.mild),
  };
}
