import { eggDaysFactor, incubationDays } from '../colony/development/incubation.ts';
import { addDays, dayOf, type LocalDay } from '../day.ts';
import type { StockCount } from '../tub.ts';
import { runOn, type Stretch } from './stretch.ts';

/** What a count says of the young of a tub. */
export type YoungCounted = Pick<StockCount, 'at' | 'juveniles' | 'berried'>;

/** Young are fed powder for so long, days. Common practice, no source. */
const powderDays = 42;
/** Temperature of a tub in which none was measured lately, °C (assumption). */
const usualC = 22;

/**
 * The days on which the eggs that were counted can be expected to hatch; null: none were, or at this temperature they are not carried to the
 * end. From half the days that eggs are carried, as females stand half way on average when they are counted (our choice), to the long end of
 * those days.
 *
 * @param tempC  water of the tub, °C; null: 22 °C is taken. How long eggs are carried: `incubationDays`, its sources and errors there.
 */
export function hatchDays({ at, berried }: YoungCounted, tempC: number | null, zone: string): Stretch | null {
  const carried = berried !== null && berried > 0 ? incubationDays(tempC ?? usualC) : null;
  if (carried === null) return null;
  const counted = dayOf(at, zone);
  return {
    from: addDays(counted, Math.ceil(carried / 2)),
    to: addDays(counted, Math.ceil(carried * eggDaysFactor.high)),
  };
}

/** The days on which there are young small enough for powder by the last count: those that were seen, and those that hatch; null: none. */
export function youngDays(count: YoungCounted, tempC: number | null, zone: string, day: LocalDay): Stretch | null {
  const counted = dayOf(count.at, zone);
  const hatch = hatchDays(count, tempC, zone);
  const seen = count.juveniles !== null && count.juveniles > 0;
  return runOn(
    [
      ...(seen ? [{ from: counted, to: addDays(counted, powderDays) }] : []),
      ...(hatch === null ? [] : [{ from: hatch.from, to: addDays(hatch.to, powderDays) }]),
    ],
    day,
  );
}
