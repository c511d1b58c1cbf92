import { instantAt, type LocalDay, minuteMs, msOf } from '../../domain/index.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';

/** Posts that say what is left of the day: they are kept up to date. */
export const keptJobs = ['morning', 'evening'] as const;
export type KeptJob = (typeof keptJobs)[number];

/** A post of today that was sent. */
export interface KeptPost {
  readonly job: KeptJob;
  readonly day: LocalDay;
  readonly messageId: string;
}

/** The posts of today that were sent and are kept up to date. */
export function keptPosts(desk: Desk): KeptPost[] {
  const day = todayOf(desk);
  return keptJobs.flatMap((job) => {
    const run = desk.store.jobRuns.ofDay(job, day);
    return run?.state === 'sent' && run.messageId !== null ? [{ job, day, messageId: run.messageId }] : [];
  });
}

/** How late the post of a day went out, whole minutes; 0 where it has not. */
export function lateMinutesOf(desk: Desk, job: KeptJob, day: LocalDay): number {
  const run = desk.store.jobRuns.ofDay(job, day);
  if (run === undefined) return 0;
  const { zone, morningAt, eveningAt } = businessOf(desk);
  const slot = instantAt(day, job === 'morning' ? morningAt : eveningAt, zone);
  // One that was found again had gone out when it was first tried.
  const sentAt = run.note === null ? (run.doneAt ?? run.claimedAt) : run.claimedAt;
  return Math.max(0, Math.floor((msOf(sentAt) - msOf(slot)) / minuteMs));
}

/** Changes whenever something was logged or undone. */
export const booksVersion = (desk: Desk): string => desk.store.entries.version();
