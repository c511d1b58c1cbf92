import type { Chain } from './chain.ts';

/** A run of days, first and last included, as a place in a table of `days` times `days`. */
export const runAt = (first: number, last: number, days: number): number => first * days + last;

/** By run of days, the minutes that a chain cannot but do within it: its fewest doings there of all its paths, times its minutes. */
export function forcedMinutes({ starts, next, minutes }: Chain, days: number): Float64Array {
  const forced = new Float64Array(days * days);
  const begin = starts[0] ?? days;
  const fewest = new Float64Array(days);
  for (let first = 0; first < days; first++) {
    for (let last = Math.max(first, begin); last < days; last++) {
      for (let at = days - 1; at >= begin; at--) {
        fewest[at] = (at >= first && at <= last ? 1 : 0) + leastOf(next[at] ?? [], fewest);
      }
      forced[runAt(first, last, days)] = leastOf(starts, fewest) * minutes;
    }
  }
  return forced;
}

function leastOf(days: readonly number[], of: Float64Array): number {
  let least = Number.POSITIVE_INFINITY;
  for (const at of days) least = Math.min(least, of[at] ?? 0);
  return least === Number.POSITIVE_INFINITY ? 0 : least;
}
