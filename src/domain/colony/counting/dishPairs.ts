import { dayMs, type Instant, msOf, plusMs } from '../../day.ts';
import type { StockCount } from '../../tub.ts';
import type { StockStep, StockSteps } from '../stock.ts';
import type { DishPair } from './dishRatio.ts';

/** A full count this near tells what the tub held; animals that grow up meanwhile are few. Common practice, no source. */
const nearMs = 3 * dayMs;

/**
 * The counts at the dish of one tub, each with the full count nearest to it within three days, carried to its moment by what came and
 * left between. Counts by removal passes count as full. In any order.
 */
export function dishPairs(counts: readonly StockCount[], steps: StockSteps): DishPair[] {
  const full = counts.filter(({ method }) => method === 'full' || method === 'passes');
  return counts.flatMap((dish) => {
    if (dish.method !== 'dish') return [];
    const near = full
      .filter(({ at }) => at >= plusMs(dish.at, -nearMs) && at <= plusMs(dish.at, nearMs))
      .sort((a, b) => apartMs(a.at, dish.at) - apartMs(b.at, dish.at));
    const [nearest] = near;
    return nearest === undefined ? [] : [{ seen: dish.saleable, full: heldAt(dish.at, nearest, steps) }];
  });
}

const apartMs = (one: Instant, other: Instant): number => Math.abs(msOf(one) - msOf(other));

/** Animals in the tub at a moment, by a count before it or after it. */
function heldAt(at: Instant, count: StockCount, { came, left }: StockSteps): number {
  const isLater = at > count.at;
  const [from, to] = isLater ? [count.at, at] : [at, count.at];
  const between = (steps: readonly StockStep[]): number =>
    steps.filter((step) => step.at > from && step.at <= to).reduce((sum, { number }) => sum + number, 0);
  const gained = between(came) - between(left);
  return Math.max(0, count.saleable + (isLater ? gained : -gained));
}
