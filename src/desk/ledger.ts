import type { Instant, Job, LocalDay, SlotState } from '../domain/index.ts';
import type { Desk } from './desk.ts';

/** How a slot of a job ended. */
export type SlotEnd = Parameters<Desk['store']['jobRuns']['settle']>[2];

/** Notes the intent to run a job's slot, before anything is posted; false where it is taken. */
export const claimSlot = (desk: Desk, job: Job, day: LocalDay, now: Instant): boolean =>
  desk.store.jobRuns.claim(job, day, now);

/** Notes that a slot, claimed before and not posted, is being run once more. */
export const claimSlotAgain = (desk: Desk, job: Job, day: LocalDay): void => desk.store.jobRuns.claimAgain(job, day);

/** Notes how a claimed slot ended. */
export const settleSlot = (desk: Desk, job: Job, day: LocalDay, end: SlotEnd): void =>
  desk.store.jobRuns.settle(job, day, end);

/** Notes that a slot is not run: folded into a later one, or skipped. */
export const passSlot = (
  desk: Desk,
  job: Job,
  day: LocalDay,
  as: 'folded' | 'skipped',
  now: Instant,
  note: string,
): boolean => desk.store.jobRuns.pass(job, day, as, now, note);

/** What stands of every slot since a day. */
export const slotsSince = (desk: Desk, day: LocalDay): SlotState[] => desk.store.jobRuns.states(day);

/** When any of the named settings was set last; null: never. */
export const settingsSince = (desk: Desk, names: readonly string[]): Instant | null =>
  desk.store.jobRuns.settingsSince(names) ?? null;

/** When the bot first started on these books: nothing before it counts as missed. */
export const startedAt = (desk: Desk): Instant => desk.store.settings.startedAt(desk.now());

const failed = 'failed: ';

/** The note of a job that failed. */
export const failureNote = (cause: string): string => `${failed}${cause}`;

/** Why the backup of a day failed; null: it did not. */
export function backupFailure(desk: Desk, day: LocalDay): string | null {
  const note = desk.store.jobRuns.ofDay('backup', day)?.note ?? '';
  return note.startsWith(failed) ? note.slice(failed.length) : null;
}

/** Makes the day's checked copy of the books. */
export const backupOf = (desk: Desk, day: LocalDay): ReturnType<Desk['store']['backups']['make']> =>
  desk.store.backups.make(day);
