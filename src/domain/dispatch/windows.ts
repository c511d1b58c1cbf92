import type { ClosedWindow } from '../business.ts';
import { addDays, type LocalDay } from '../day.ts';

/** Two leap days lie at most eight years apart (1896 and 1904, 2096 and 2104): by then every window has opened and closed. */
const longestSearchDays = 8 * 366;

/**
 * Whether a window covers a day, both ends included. Compared as `MM-DD` text, which does the right thing in a common year
 * with a window that names 29 February: one that ends then ends on the 28th, one that begins then begins on 1 March, and
 * one that is no longer than that day is not there at all.
 */
export function isClosed(window: ClosedWindow, day: LocalDay): boolean {
  const monthDay = day.slice(5);
  return window.from <= window.to
    ? monthDay >= window.from && monthDay <= window.to
    : monthDay >= window.from || monthDay <= window.to;
}

/** The first of the windows that covers a day, or null. */
export const closedBy = (windows: readonly ClosedWindow[], day: LocalDay): ClosedWindow | null =>
  windows.find((window) => isClosed(window, day)) ?? null;

/** Whether a window leaves no day of any year open. */
export const isWholeYear = (window: ClosedWindow): boolean => reopensOn([window], wholeYearProbe) === null;

const wholeYearProbe = '2026-01-01' as LocalDay;

/** The next edges of a window: the first closed day and the first open day that lie after a day. */
export interface WindowEdges {
  /** First closed day of the next closing; null for a window that never closes anew, as it is never open. */
  readonly closesOn: LocalDay | null;
  /** First open day after a closed one; null for a window over the whole year. */
  readonly opensOn: LocalDay | null;
}

/** The next closing and the next opening of a window after the day `around`, whichever of them comes first. */
export function windowEdges(window: ClosedWindow, around: LocalDay): WindowEdges {
  let closesOn: LocalDay | null = null;
  let opensOn: LocalDay | null = null;
  let before = isClosed(window, around);
  for (let ahead = 1; ahead <= longestSearchDays && (closesOn === null || opensOn === null); ahead++) {
    const day = addDays(around, ahead);
    const now = isClosed(window, day);
    if (now && !before) closesOn ??= day;
    if (!now && before) opensOn ??= day;
    before = now;
  }
  return { closesOn, opensOn };
}

/** The first day from `day` on, itself included, that no window covers; null where together they leave none open. */
export function reopensOn(windows: readonly ClosedWindow[], day: LocalDay): LocalDay | null {
  for (let ahead = 0; ahead <= longestSearchDays; ahead++) {
    const candidate = addDays(day, ahead);
    if (closedBy(windows, candidate) === null) return candidate;
  }
  return null;
}
