import { type Chain, isFixed } from './chain.ts';
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

/** The plan that was told last. Days are counted from the first planned one now; those before it are negative. */
export interface ToldPlan {
  readonly first: number;
  readonly last: number;
  /** The days on which a chain stood; null: the plan did not know it. */
  daysOf(chain: Chain): ReadonlySet<number> | null;
}

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
 * Days that were told stay unless another is lighter by more than five minutes or the heaviest day is over 5 % heavier than need be. What was
 * told today for today stays as it is, come what may.
 *
 * @param chains    what falls due, in any order
 * @param capacity  the part of all partners' shares that is there, over 0 to 1, by day
 * @param told      null: no plan was
 */
export function level(chains: readonly Chain[], capacity: readonly number[], told: ToldPlan | null): Levelled {
  const bound = peakBound(chains, capacity.length);
  const fresh = levelAnew(chains, capacity, bound);
  const atLeastMinutes = fresh.isLeast ? fresh.peakMinutes : bound;
  const kept = told === null ? null : keepTold(chains, capacity, told, fresh.peakMinutes);
  return { ...(kept ?? { paths: fresh.paths, peakMinutes: fresh.peakMinutes }), atLeastMinutes };
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

/** The told plan with as few moves as make it good enough; null where they do not. */
function keepTold(chains: readonly Chain[], capacity: readonly number[], told: ToldPlan, lightest: number) {
  const days = chains.map((chain) => told.daysOf(chain));
  const isOfToday = told.first === 0;
  const held = isOfToday ? chains.map((chain, index) => heldToday(chain, days[index] ?? null)) : chains;
  const layout = openLayout(held, capacity);
  const leaves = (index: number, at: number): boolean => {
    const own = days[index];
    return own !== null && own !== undefined && at <= told.last && !own.has(at);
  };
  const staying: Staying = (index, at) =>
    leaves(index, at) ? (2 * worthMoving * (chains[index]?.minutes ?? 0)) / (capacity[at] ?? 1) : 0;
  const stayers: Staying = (index, at) => (leaves(index, at) ? 1e12 : 0);
  const order = placingOrder(held);
  for (const index of order) if (days[index] !== null) layout.improve(index, Number.POSITIVE_INFINITY, stayers);
  for (const index of order) if (days[index] === null) layout.improve(index, lightest, staying);
  const mostPeak = lightest * keptWithin;
  layout.ease(layout.peak() <= mostPeak ? Math.max(lightest, layout.peak()) : mostPeak, staying);
  const isKept = isOfToday || layout.peak() <= mostPeak + 1e-9;
  return isKept ? { paths: layout.paths, peakMinutes: layout.peak() } : null;
}

/** A chain that begins today if it was told for today, and else does not, where it can. */
function heldToday(chain: Chain, told: ReadonlySet<number> | null): Chain {
  if (told === null) return chain;
  const starts = chain.starts.filter((at) => (at === 0) === told.has(0));
  return starts.length === 0 ? chain : { ...chain, starts };
}
