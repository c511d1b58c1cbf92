import type { ClosedWindow } from '../business.ts';
import { addDays, type LocalDay } from '../day.ts';
import { closedBy, reopensOn } from './windows.ts';

/** A stretch of closed days, several windows that touch taken together. */
export interface Closing {
  /** Its first closed day; of one that runs already, the day it was looked at. */
  readonly closesOn: LocalDay;
  /** The first open day after it. */
  readonly opensOn: LocalDay;
}

/** Every window but one that names only 29 February closes within this many days. */
const longestOpenDays = 366;

/** The closed stretch that runs on a day, or the next one after it; null where none ends or none begins within a year. */
export function nextClosing(windows: readonly ClosedWindow[], from: LocalDay): Closing | null {
  for (let ahead = 0; ahead <= longestOpenDays; ahead++) {
    const closesOn = addDays(from, ahead);
    if (closedBy(windows, closesOn) === null) continue;
    const opensOn = reopensOn(windows, closesOn);
    return opensOn === null ? null : { closesOn, opensOn };
  }
  return null;
}

/** Days from one on up to another, the last not included, on which no window is closed. */
export function openDaysBetween(windows: readonly ClosedWindow[], from: LocalDay, until: LocalDay): number {
  let open = 0;
  for (let day = from; day < until; day = addDays(day, 1)) if (closedBy(windows, day) === null) open++;
  return open;
}
