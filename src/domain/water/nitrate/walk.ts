import { type Cells, drifts, startLevels } from './cells.ts';
import type { TubEvent } from './event.ts';
import { type ReadingTables, type Sight, tableIndex } from './sight.ts';

/** Where all cells stand after a history, and how well each foretold the readings. */
export interface Walked {
  /** Nitrate at the end, mg/L, by cell. */
  readonly levelMgL: Float64Array;
  /** Weight by sight and cell; all together sum to 1. */
  readonly weights: readonly Float64Array[];
  /** Chance of each reading, given those before it, were it no slip. */
  readonly chances: readonly number[];
  /** Logarithm of the chance of the first n readings together, by n; the last is that of all. */
  readonly logEvidences: readonly number[];
}

/** The prior mass by sight and cell, made to sum to 1; and the sum that it had. */
function startWeights({ mass, count }: Cells, eyes: readonly Sight[]): { weights: Float64Array[]; total: number } {
  let total = 0;
  for (let place = 0; place < count; place++) total += mass[place] ?? 0;
  const weights = eyes.map(({ weight }) => {
    const bySight = new Float64Array(count);
    for (let place = 0; place < count; place++) bySight[place] = ((mass[place] ?? 0) * weight) / total;
    return bySight;
  });
  return { weights, total };
}

/** Days of today's rise that a drifting rise amounts to between two moments: ∫ e^(k·(t − now)) dt. */
function driftedDays(perDay: number, fromDay: number, toDay: number, nowDay: number): number {
  if (perDay === 0) return toDay - fromDay;
  return (Math.exp(perDay * (toDay - nowDay)) - Math.exp(perDay * (fromDay - nowDay))) / perDay;
}

/** Lets every cell rise; nitrate does not fall below zero. */
function rise(cells: Cells, level: Float64Array, fromDay: number, toDay: number, nowDay: number): void {
  if (toDay <= fromDay) return;
  const days = drifts.map(({ perDay }) => driftedDays(perDay, fromDay, toDay, nowDay));
  const { count, risePerDay, drift } = cells;
  for (let cell = 0; cell < count; cell++) {
    const risen = (level[cell] ?? 0) + (risePerDay[cell] ?? 0) * (days[drift[cell] ?? 0] ?? 0);
    level[cell] = Math.max(risen, 0);
  }
}

/** Weighs all cells by a reading, in place; returns the sum of the weights after it, with slips and without. */
function weigh(
  level: Float64Array,
  weights: readonly Float64Array[],
  { clean: cleanTables, full: fullTables }: ReadingTables,
  places: Uint16Array,
): { sum: number; clean: number } {
  const count = places.length;
  for (let cell = 0; cell < count; cell++) places[cell] = tableIndex(level[cell] ?? 0);
  let sum = 0;
  let clean = 0;
  for (let sight = 0; sight < weights.length; sight++) {
    const bySight = weights[sight];
    const cleanTable = cleanTables[sight];
    const fullTable = fullTables[sight];
    if (bySight === undefined || cleanTable === undefined || fullTable === undefined) continue;
    for (let cell = 0; cell < count; cell++) {
      const weight = bySight[cell] ?? 0;
      if (weight === 0) continue;
      const place = places[cell] ?? 0;
      const left = weight * (fullTable[place] ?? 0);
      bySight[cell] = left < 1e-290 ? 0 : left;
      sum += left;
      clean += weight * (cleanTable[place] ?? 0);
    }
  }
  return { sum, clean };
}

/** Below this the weights are brought back to a sum of 1, long before they are too small to hold. */
const leastSum = 1e-60;

function scale(weights: readonly Float64Array[], by: number): void {
  for (const bySight of weights)
    for (let cell = 0; cell < bySight.length; cell++) bySight[cell] = (bySight[cell] ?? 0) * by;
}

/**
 * Takes all cells through a history at once. Between events N rises by g a day; a change of fraction f sets
 * N⁺ = (1 − f)·N⁻ + f·N_source; a top-up adds f·N_topup, as only water left the tub; a reading weighs.
 *
 * @param events   in order of time, from the start's day on
 * @param fromDay  day of the start
 * @param nowDay   end of the walk, and the day for which the cells' rise holds
 * @param tablesOf chance tables by typed value, for the same eyes
 */
export function walk(
  cells: Cells,
  events: readonly TubEvent[],
  fromDay: number,
  nowDay: number,
  sourceMgL: number,
  eyes: readonly Sight[],
  tablesOf: (typedMgL: number) => ReadingTables,
): Walked {
  const level = startLevels(cells);
  const { weights, total } = startWeights(cells, eyes);
  const places = new Uint16Array(cells.count);
  const chances: number[] = [];
  const logEvidences = [Math.log(total)];
  let day = fromDay;
  let before = 1;
  for (const event of events) {
    rise(cells, level, day, event.day, nowDay);
    day = event.day;
    if (event.of === 'reading') {
      const { sum, clean } = weigh(level, weights, tablesOf(event.nitrateMgL), places);
      chances.push(clean / before);
      logEvidences.push((logEvidences.at(-1) ?? 0) + Math.log(sum / before));
      before = sum;
      if (sum < leastSum) {
        scale(weights, 1 / sum);
        before = 1;
      }
    } else {
      const left = event.of === 'change' ? 1 - event.fraction : 1;
      const added = event.fraction * (event.of === 'change' ? sourceMgL : event.mgL);
      for (let cell = 0; cell < level.length; cell++) level[cell] = (level[cell] ?? 0) * left + added;
    }
  }
  rise(cells, level, day, nowDay, nowDay);
  scale(weights, 1 / before);
  return { levelMgL: level, weights, chances, logEvidences };
}

/** The weight of each cell, whatever the sight. */
export function weightsOf(weights: readonly Float64Array[]): Float64Array {
  const sum = new Float64Array(weights[0]?.length ?? 0);
  for (const bySight of weights) {
    for (let cell = 0; cell < sum.length; cell++) sum[cell] = (sum[cell] ?? 0) + (bySight[cell] ?? 0);
  }
  return sum;
}
