import { ammoniaHours } from './ammoniaBudget.ts';
import type { Bag } from './bag.ts';
import { type Course, courseOf, horizonHours, type Travel } from './course.ts';
import { type PackingFigures, strictFigures } from './figures.ts';
import { oxygenHours } from './oxygenBudget.ts';
import { hoursToC, leastWaterC, mostWaterC, type Way } from './wayTemperature.ts';

/** What ends a bag's time, in the order in which they are told where two come at once. */
export const bagLimits = ['heat', 'ammonia', 'oxygen'] as const;
export type BagLimit = (typeof bagLimits)[number];

/** How long animals are safe in a bag. */
export interface SafeHours {
  /** h, at most `horizonHours`. A hotter way, more or longer animals and less water never make it longer. */
  readonly hours: number;
  /** What comes first; null: nothing on the horizon. */
  readonly limit: BagLimit | null;
}

/** Hours until the water of a bag is too hot, h; infinite where it never is. */
export const hotAfterHours = ({ startC, warmC }: Way): number => hoursToC(startC, warmC, mostWaterC, 'heat');

/**
 * Hours until the water of a bag is too cold, h; infinite where it never is. Told apart from the safe hours: those grow shorter as the
 * way grows hotter, whatever the bag, and the cold would turn that round.
 */
export const coldAfterHours = ({ startC, coldC }: Way): number => hoursToC(startC, coldC, leastWaterC, 'cold');

/** The safe hours of a bag on a course that was reckoned, the cold left aside. */
export function safeHoursOn(bag: Bag, course: Course): SafeHours {
  const until: Readonly<Record<BagLimit, number>> = {
    heat: hotAfterHours(course.way),
    ammonia: ammoniaHours(bag, course),
    oxygen: oxygenHours(bag, course),
  };
  const hours = Math.min(...bagLimits.map((limit) => until[limit]));
  return hours > horizonHours
    ? { hours: horizonHours, limit: null }
    : { hours, limit: bagLimits.find((limit) => until[limit] === hours) ?? null };
}

/** Whether a bag is safe for some hours, at most `horizonHours`, the cold left aside. */
export const isSafeFor = (bag: Bag, course: Course, hours: number): boolean =>
  hotAfterHours(course.way) >= hours && ammoniaHours(bag, course) >= hours && oxygenHours(bag, course) >= hours;

/** The safe hours of a bag, the cold left aside: until heat, ammonia or want of oxygen, by the strictest figures if not said. */
export const safeHoursOf = (bag: Bag, travel: Travel, figures: PackingFigures = strictFigures): SafeHours =>
  safeHoursOn(bag, courseOf(travel, figures));
