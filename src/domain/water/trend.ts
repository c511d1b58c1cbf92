import { type Instant, plusMs } from '../day.ts';

/** A value that was read, with when. */
export interface Point {
  readonly at: Instant;
  readonly value: number;
}

/** Where a value of one tub is going, judged by the tub's own readings. */
export type Trend =
  | { readonly of: 'unknown'; readonly readings: number; readonly spanDays: number }
  | {
      readonly of: 'steady' | 'rising' | 'falling';
      readonly readings: number;
      /** From the first of the readings judged to the last. */
      readonly spanDays: number;
      readonly perWeek: number;
      /** Median of the first readings of the last 180 days: what this tub began from. */
      readonly baseline: number;
      readonly latest: number;
    };

const dayMs = 86_400_000;
const baselineDays = 180;
const recentDays = 60;
const leastReadings = 4;
const leastSpanDays = 21;
/** Two-sided; four readings that all go one way have 0.083. */
const sure = 0.1;
/** A move under this share of the baseline is no news (common practice, no source). */
const leastShare = 0.05;

/**
 * Trend of a value by Sen's slope and Kendall's test: both look at pairs of readings, so that one misread value bends neither.
 *
 *   slope = median (vⱼ − vᵢ)/(tⱼ − tᵢ)        S = Σ sign(vⱼ − vᵢ), i < j
 *
 * Rising or falling: S is hardly chance (exact, two-sided, 0.1) and the slope moved it by 5 % of the baseline and by what can be told.
 * Judged are the last 60 days, or where these hold too few readings all of the last 180: four at least, over three weeks.
 *
 * @param points   of one tub and one value, in any order
 * @param canTell  least move that the kit or pen can tell, in the value's unit, over 0
 * Source: Sen 1968, J. Am. Stat. Assoc. 63: 1379; Kendall 1975, Rank Correlation Methods (from memory).
 * Checked: tests/published/kendallNull.csv.
 */
export function trendOf(points: readonly Point[], now: Instant, canTell: number): Trend {
  const past = points
    .filter(({ at }) => at <= now && at >= plusMs(now, -baselineDays * dayMs))
    .sort((a, b) => a.at.localeCompare(b.at));
  const recent = past.filter(({ at }) => at >= plusMs(now, -recentDays * dayMs));
  const judged = isEnough(recent) ? recent : past;
  const spanDays = spanOf(judged);
  const latest = judged.at(-1);
  if (latest === undefined || !isEnough(judged)) return { of: 'unknown', readings: judged.length, spanDays };
  const perWeek = senSlope(judged) * 7;
  const baseline = median(past.slice(0, Math.max(3, Math.ceil(past.length / 3))).map(({ value }) => value));
  const moved = Math.abs((perWeek * spanDays) / 7);
  const isNews =
    moved >= Math.max(leastShare * Math.abs(baseline), canTell) &&
    kendallChance(kendallS(judged.map(({ value }) => value)), judged.length) <= sure;
  return {
    of: isNews ? (perWeek > 0 ? 'rising' : 'falling') : 'steady',
    readings: judged.length,
    spanDays,
    perWeek,
    baseline,
    latest: latest.value,
  };
}

const daysFrom = (first: Instant, last: Instant): number => (Date.parse(last) - Date.parse(first)) / dayMs;

function spanOf(points: readonly Point[]): number {
  const [first, last] = [points[0], points.at(-1)];
  return first === undefined || last === undefined ? 0 : daysFrom(first.at, last.at);
}

const isEnough = (points: readonly Point[]): boolean =>
  points.length >= leastReadings && spanOf(points) >= leastSpanDays;

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length / 2;
  const upper = sorted[Math.floor(middle)] ?? Number.NaN;
  return Number.isInteger(middle) ? ((sorted[middle - 1] ?? Number.NaN) + upper) / 2 : upper;
}

/** Pairs of a list, the earlier one first. */
const pairsOf = <T>(list: readonly T[]): (readonly [T, T])[] =>
  list.flatMap((earlier, index) => list.slice(index + 1).map((later) => [earlier, later] as const));

/** Sen's slope, in units a day; pairs of the same moment are passed over. */
export const senSlope = (points: readonly Point[]): number =>
  median(pairsOf(points).flatMap(([a, b]) => (a.at === b.at ? [] : [(b.value - a.value) / daysFrom(a.at, b.at)])));

/** Kendall's S: pairs that rise less pairs that fall, in the order of the list. */
export const kendallS = (values: readonly number[]): number =>
  pairsOf(values).reduce((sum, [earlier, later]) => sum + Math.sign(later - earlier), 0);

/**
 * Chance of an S as far from 0 or further when order means nothing, two-sided and exact; ties make it cautious.
 * @param n  values, 2 and up
 */
export function kendallChance(s: number, n: number): number {
  // ways[d]: shares of the orders of the first values with d falling pairs; the next value makes 0 to `before` more.
  let ways = [1];
  for (let before = 1; before < n; before++) {
    const next = Array.from({ length: ways.length + before }, () => 0);
    ways.forEach((share, falling) => {
      for (let more = 0; more <= before; more++)
        next[falling + more] = (next[falling + more] ?? 0) + share / (before + 1);
    });
    ways = next;
  }
  const pairs = (n * (n - 1)) / 2;
  const upper = ways.reduce((sum, share, falling) => sum + (pairs - 2 * falling >= Math.abs(s) ? share : 0), 0);
  return Math.min(1, 2 * upper);
}
