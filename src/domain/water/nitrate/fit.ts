import { type Cells, coarseCells, splitCells } from './cells.ts';
import type { TubEvent } from './event.ts';
import { readInterval } from './interval.ts';
import type { RisePrior } from './risePrior.ts';
import { bluntSights, seenScale, sights, tableMaker } from './sight.ts';
import { careOf, startDensity } from './startPrior.ts';
import { type Walked, walk, weightsOf } from './walk.ts';

/** What the water and the kit are: the same for all tubs of a rack. */
export interface NitrateSetting {
  /** Nitrate of the source water, mg/L. */
  readonly sourceMgL: number;
  /** Steps of the kit, mg/L, ascending. */
  readonly kitStepsMgL: readonly number[];
  readonly prior: RisePrior;
}

/** All that is believed after a history: cells, and where they stand now. */
export interface Fit extends Walked {
  readonly cells: Cells;
  /** Chances and evidence of the coarse look, which holds every possible truth. */
  readonly coarse: Pick<Walked, 'chances' | 'logEvidences'>;
}

/** Cells lighter than this part of the heaviest are not looked at again. */
const lightest = Math.exp(-10);

/** Where nitrate may have been at the start, on the seen scale: about the first reading, or anywhere without one. */
function startRange(first: TubEvent | undefined, kitStepsMgL: readonly number[]): readonly [number, number] {
  if (first?.of !== 'reading') return [0, seenScale(200)];
  const { lowMgL, highMgL } = readInterval(first.nitrateMgL, kitStepsMgL);
  const low = seenScale(lowMgL) - 0.6;
  const high = Number.isFinite(highMgL) ? seenScale(highMgL) + 0.6 : seenScale(lowMgL) + 1.4;
  return [Math.max(0, low), high];
}

/** Places of the cells worth a second look. */
function heavyPlaces(weights: Float64Array): number[] {
  let most = 0;
  for (let place = 0; place < weights.length; place++) most = Math.max(most, weights[place] ?? 0);
  const places: number[] = [];
  for (let place = 0; place < weights.length; place++) if ((weights[place] ?? 0) >= most * lightest) places.push(place);
  return places;
}

/**
 * Bayes on cells of start, rise and drift, in two looks: coarse over everything possible, then fine where the coarse one found anything.
 *
 * @param events in order of time; those before the first reading only tell the care
 * @param care   when more is known of it than these events tell
 */
export function fitCells(
  events: readonly TubEvent[],
  nowDay: number,
  { sourceMgL, kitStepsMgL, prior }: NitrateSetting,
  care = careOf(events),
): Fit {
  const firstAt = events.findIndex(({ of }) => of === 'reading');
  const used = firstAt < 0 ? [] : events.slice(firstAt);
  const fromDay = used[0]?.day ?? nowDay;
  const density = (u: number, risePerDay: number): number => startDensity(u, risePerDay, sourceMgL, care);
  const cells = coarseCells(startRange(used[0], kitStepsMgL), density, prior);
  const looked = walk(cells, used, fromDay, nowDay, sourceMgL, bluntSights, tableMaker(kitStepsMgL, bluntSights));
  const weights = weightsOf(looked.weights);
  const fine = splitCells(cells, heavyPlaces(weights), density, prior);
  const walked = walk(fine, used, fromDay, nowDay, sourceMgL, sights, tableMaker(kitStepsMgL, sights));
  return { ...walked, cells: fine, coarse: looked };
}
