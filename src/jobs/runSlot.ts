import {
  backupOf,
  businessOf,
  claimSlot,
  claimSlotAgain,
  type Desk,
  failureNote,
  passSlot,
  settleSlot,
  tellRota,
} from '../desk/index.ts';
import { type Instant, isQuiet, type Job, type LocalDay, timeOf } from '../domain/index.ts';
import { passing, type Slot } from './planner.ts';
import type { JobLog, Post, Posting } from './posting.ts';

export interface JobNeeds {
  readonly desk: Desk;
  readonly posting: Posting;
  /** What a slot has to say; null: nothing, so nothing is posted. */
  readonly postOf: (slot: Slot, lateMinutes: number) => Post | null;
  readonly log: JobLog;
}

/** Key of a post, by which it is found again: kind and local day. */
export const postKey = (job: Job, day: LocalDay): string => `${job}-${day}`;

/** Runs a slot for the first time: intent in the ledger, then the work, then the result. Whether a post was sent. */
export async function runSlot(needs: JobNeeds, slot: Slot, lateMinutes: number, now: Instant): Promise<boolean> {
  if (slot.job === 'backup') return backUp(needs, slot, now);
  const post = needs.postOf(slot, lateMinutes);
  if (post === null) {
    passSlot(needs.desk, slot.job, slot.day, 'skipped', now, 'nothing to say');
    return false;
  }
  return claimSlot(needs.desk, slot.job, slot.day, now) && send(needs, slot, post);
}

/** Settles a slot that was claimed and never settled: what was posted is noted, what was not is posted while it may be. */
export async function checkSlot(
  needs: JobNeeds,
  slot: Slot,
  more: { readonly lateMinutes: number; readonly mayPost: boolean },
): Promise<boolean> {
  const { desk, posting, log } = needs;
  const { job, day } = slot;
  if (job === 'backup') return makeBackup(needs, slot);
  const found = await posting.findPost(postKey(job, day));
  if (found.outcome === 'unknown') {
    log.warn({ job, day, cause: found.cause }, 'whether a post was sent is not known yet');
    return false;
  }
  if (found.outcome === 'found') {
    settleSent(desk, slot, { messageId: found.messageId, note: 'found again' });
    return true;
  }
  const post = more.mayPost ? needs.postOf(slot, more.lateMinutes) : null;
  if (post !== null) {
    claimSlotAgain(desk, job, day);
    return send(needs, slot, post);
  }
  const { as, note } = more.mayPost ? { as: 'skipped' as const, note: 'nothing to say' } : passing(job);
  settleSlot(desk, job, day, { state: as, at: desk.now(), note });
  return false;
}

async function send({ desk, posting, log }: JobNeeds, slot: Slot, { card, mention }: Post): Promise<boolean> {
  const { job, day } = slot;
  const { zone, morningAt } = businessOf(desk);
  const quiet = isQuiet(timeOf(desk.now(), zone), morningAt);
  const called = mention === undefined || quiet ? {} : { mention };
  const sent = await posting.publish(card, { key: postKey(job, day), quiet, ...called });
  if (sent.outcome === 'unknown') {
    log.warn({ job, day, cause: sent.cause }, 'a post may not have been sent');
    return false;
  }
  settleSent(desk, slot, { messageId: sent.messageId });
  log.info({ job, day, message: sent.messageId }, 'posted');
  return true;
}

/** Posts that say who does what: the rota as it then is counts as told. */
const tellsRota: readonly Job[] = ['morning', 'evening'];

function settleSent(
  desk: Desk,
  { job, day }: Slot,
  more: { readonly messageId: string; readonly note?: string },
): void {
  settleSlot(desk, job, day, { state: 'sent', at: desk.now(), ...more });
  if (tellsRota.includes(job)) tellRota(desk);
}

async function backUp(needs: JobNeeds, slot: Slot, now: Instant): Promise<boolean> {
  return claimSlot(needs.desk, slot.job, slot.day, now) && makeBackup(needs, slot);
}

async function makeBackup({ desk, log }: JobNeeds, { job, day }: Slot): Promise<false> {
  try {
    const { file, bytes } = await backupOf(desk, day);
    settleSlot(desk, job, day, { state: 'sent', at: desk.now(), note: `${bytes} bytes` });
    log.info({ file, bytes }, 'backed up and checked');
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    settleSlot(desk, job, day, { state: 'skipped', at: desk.now(), note: failureNote(cause) });
    log.error({ err: error, day }, 'the nightly backup failed');
  }
  return false;
}
