import type { Chain } from './chain.ts';
import { isFixed } from './chain.ts';
import { openLayout, type Staying } from './layout.ts';
import { leastPeak } from './leastPeak.ts';
import { peakBound } from './peakBound.ts';

/** The days of each chain, and how heavy the heaviest day becomes. */
export interface Levelled {
  readonly paths: readonly (readonly number[])[];
  readonly peakMinutes: number;
  /** No plan that keeps the intervals has a lighter heaviest day than this. */
  readonly atLeastMinutes: number;
}

/** The days on which a chain stood in the plan that was told; null: that plan did not know it. */
export type ToldDays = (chain: Chain) => ReadonlySet<number> | null;

/** A plan that was told is kept where its heaviest day is at most this much heavier than need be (our choice). */
const keptWithin = 1.05;
/** A doing leaves the day it was told for only if that day stays heavier by more than this after it left, minutes (our choice). */
const worthMoving = 5;
const mostPairRounds = 12;

/**
 * Lays the doings on days: the heaviest day as light as can be, then the days as even as moves of single chores make them, by who is there.
 * Each chore takes the cheapest of its days in turn until none finds cheaper ones; where that stays over the bound, pairs of chores move,
 * and of few chores all layings are looked through.
 *
 * Days that were told stay unless another is lighter by more than five minutes or the heaviest day is over 5 % heavier than need be.
 *
 * @param chains    what falls due, in any order
 * @param capacity  the part of all partners' shares that is there, over 0 to 1, by day
 * @param toldUntil the last day of the plan that was told; -1: none
 */
export function level(
  chains: readonly Chain[],
  capacity: readonly number[],
  told: ToldDays,
  toldUntil: number,
): Levelled {
  const bound = peakBound(chains, capacity.length);
  const fresh = levelAnew(chains, capacity, bound);
  const atLeastMinutes = fresh.isLeast ? fresh.peakMinutes : bound;
  const kept = toldUntil < 0 ? null : keepTold(chains, capacity, { told, toldUntil, leastPeak: fresh.peakMinutes });
  return { paths: (kept ?? fresh).paths, peakMinutes: (kept ?? fresh).peakMinutes, atLeastMinutes };
}

function levelAnew(chains: readonly Chain[], capacity: readonly number[], bound: number) {
  const layout = openLayout(chains, capacity);
  for (const index of placingOrder(chains)) layout.improve(index, bound, () => 0);
  layout.ease(bound);
  const isOver = (): boolean => layout.peak() > bound + 1e-9;
  for (let round = 0; round < mostPairRounds && isOver(); round++) if (!layout.easePairs(bound)) break;
  let isLeast = !isOver();
  if (!isLeast) {
    const found = leastPeak(chains, capacity.length, layout.peak());
    for (const [index, path] of (found.paths ?? []).entries()) layout.lay(index, path);
    isLeast = found.isComplete;
  }
  layout.ease(layout.peak());
  return { paths: layout.paths, peakMinutes: layout.peak(), isLeast };
}

/** Those with no choice first, then the longest. */
function placingOrder(chains: readonly Chain[]): number[] {
  const ranked = chains.map((chain, index) => ({ index, isFree: Number(!isFixed(chain)), minutes: chain.minutes }));
  ranked.sort((a, b) => a.isFree - b.isFree || b.minutes - a.minutes || a.index - b.index);
  return ranked.map(({ index }) => index);
}

interface Keeping {
  readonly told: ToldDays;
  readonly toldUntil: number;
  readonly leastPeak: number;
}

/** The told plan with as few moves as make it good enough; null where they do not. */
function keepTold(
  chains: readonly Chain[],
  capacity: readonly number[],
  { told, toldUntil, leastPeak: lightest }: Keeping,
) {
  const layout = openLayout(chains, capacity);
  const days = chains.map(told);
  const leaves = (index: number, at: number): boolean => {
    const own = days[index];
    return own !== null && own !== undefined && at <= toldUntil && !own.has(at);
  };
  const staying: Staying = (index, at) =>
    leaves(index, at) ? (2 * worthMoving * (chains[index]?.minutes ?? 0)) / (capacity[at] ?? 1) : 0;
  const stayers: Staying = (index, at) => (leaves(index, at) ? 1e12 : 0);
  const order = placingOrder(chains);
  for (const index of order) if (days[index] !== null) layout.improve(index, Number.POSITIVE_INFINITY, stayers);
  for (const index of order) if (days[index] === null) layout.improve(index, lightest, staying);
  const mostPeak = lightest * keptWithin;
  layout.ease(layout.peak() <= mostPeak ? Math.max(lightest, layout.peak()) : mostPeak, staying);
  return layout.peak() <= mostPeak + 1e-9 ? { paths: layout.paths, peakMinutes: layout.peak() } : null;
}
