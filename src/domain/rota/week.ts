import type { Partner } from '../business.ts';
import type { LocalDay } from '../day.ts';
import type { DueChore } from './chore.ts';
import { level } from './level.ts';
import { type RotaTask, split } from './split.ts';

export interface WeekQuestion {
  readonly due: readonly DueChore[];
  /** First day planned. */
  readonly from: LocalDay;
  /** Days planned, 1 or more. */
  readonly days: number;
  readonly partners: readonly Partner[];
}

/** Who does what on which day: days evened as far as no interval is broken, minutes split by share. The same question has the same answer. */
export const planWeek = ({ due, from, days, partners }: WeekQuestion): RotaTask[] =>
  split(level(due, from, days), from, days, partners);
