import type { Instant, Job, JobRun, LocalDay } from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

/** Scheduled posts that were not sent while the bot was off; null: none. */
export interface Missed {
  readonly morning: number;
  readonly evening: number;
  readonly weekly: number;
  /** The first day that missed one. */
  readonly since: LocalDay;
}

/** What was folded since the post before this one, season notices aside: they say themselves what they take up. */
export function missedPosts(desk: Desk, post: Job, day: LocalDay): Missed | null {
  const folded = desk.store.jobRuns.foldedBefore(post, day).filter(({ job }) => job !== 'season');
  const [first] = folded;
  if (first === undefined) return null;
  const of = (job: Job): number => folded.filter((run) => run.job === job).length;
  return { morning: of('morning'), evening: of('evening'), weekly: of('weekly'), since: first.day };
}

/** Posts sent after `from`, up to and including `to`, in order. */
export const postsBetween = (desk: Desk, from: Instant, to: Instant): JobRun[] =>
  desk.store.jobRuns.sentBetween(from, to);
