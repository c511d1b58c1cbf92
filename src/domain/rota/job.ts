import type { Instant, LocalDay } from '../day.ts';

/** What runs by the clock, in the order in which it runs when several fall due at once. */
export const jobs = ['backup', 'morning', 'season', 'weekly', 'evening'] as const;
export type Job = (typeof jobs)[number];

/** What the ledger says of a slot, as far as a plan goes by it. */
export interface SlotState {
  readonly job: Job;
  readonly day: LocalDay;
  readonly state: 'claimed' | 'sent' | 'folded' | 'skipped';
  readonly claimedAt: Instant;
}

/**
 * A slot of the ledger: claimed before the work, settled after it. claimed: whether it was posted is not known · sent: done ·
 * folded: its moment is past, and a later post says what still matters · skipped: there was nothing to say or do.
 */
export interface JobRun extends SlotState {
  readonly doneAt: Instant | null;
  readonly messageId: string | null;
  readonly note: string | null;
}
