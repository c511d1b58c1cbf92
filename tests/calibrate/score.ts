import type { Moment, Played } from './couple.ts';
import type { Estimate } from './reckoner.ts';

/** How often ranges held the truth, and their interval score. */
export interface Ranges {
  count: number;
  held: number;
  /** Truth below the range. */
  below: number;
  score: number;
}

/** What a way of reckoning came to over some worlds. */
export interface Tally {
  worlds: number;
  readonly tubs: Ranges;
  readonly total: Ranges;
  readonly ahead: Ranges;
  moments: number;
  /** Moments at which more was said to be free than was. */
  tooMuch: number;
  /** Animals truly free, and those offered in whole tens, over all moments. */
  free: number;
  offered: number;
  sales: number;
  unfilled: number;
}

const noRanges = (): Ranges => ({ count: 0, held: 0, below: 0, score: 0 });

export const noTally = (): Tally => ({
  worlds: 0,
  tubs: noRanges(),
  total: noRanges(),
  ahead: noRanges(),
  moments: 0,
  tooMuch: 0,
  free: 0,
  offered: 0,
  sales: 0,
  unfilled: 0,
});

/**
 * Adds a range and what was true. The interval score of an 80 % range is its width and ten times what the truth misses it by: lower is better.
 * Source: Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102: 359–378, equation 43 (from memory).
 */
export function addRange(ranges: Ranges, { low, high }: Estimate, truth: number): void {
  ranges.count += 1;
  if (truth < low) ranges.below += 1;
  else if (truth <= high) ranges.held += 1;
  ranges.score += high - low + 10 * Math.max(0, low - truth) + 10 * Math.max(0, truth - high);
}

function addMoment(tally: Tally, { figures, tubs, total, free }: Moment): void {
  tally.moments += 1;
  figures.tubs.forEach((range, nth) => {
    addRange(tally.tubs, range, tubs[nth] ?? 0);
  });
  addRange(tally.total, figures.total, total);
  if (figures.free > Math.max(0, free)) tally.tooMuch += 1;
  tally.free += Math.max(0, free);
  tally.offered += Math.max(0, Math.floor(figures.free / 10) * 10);
}

/** Adds a world. */
export function addWorld(tally: Tally, { moments, looks, sales, unfilled }: Played): void {
  tally.worlds += 1;
  for (const moment of moments) addMoment(tally, moment);
  for (const { said, total } of looks) addRange(tally.ahead, said, total);
  tally.sales += sales;
  tally.unfilled += unfilled;
}

/** The figures by which a way of reckoning is judged, shares 0 to 1. */
export const figuresOf = (tally: Tally) => ({
  tubsHeld: tally.tubs.held / tally.tubs.count,
  totalHeld: tally.total.held / tally.total.count,
  aheadHeld: tally.ahead.held / tally.ahead.count,
  tooMuch: tally.tooMuch / tally.moments,
  unfilled: tally.unfilled / tally.sales,
  offered: tally.offered / tally.free,
});
