import type { Database } from 'better-sqlite3';
import type { Instant, Job, JobRun, LocalDay, SlotState } from '../domain/index.ts';

interface Row {
  job: Job;
  slot: LocalDay;
  state: JobRun['state'];
  claimed_at: Instant;
  done_at: Instant | null;
  message_id: string | null;
  note: string | null;
}

const runOf = (row: Row): JobRun => ({
  job: row.job,
  day: row.slot,
  state: row.state,
  claimedAt: row.claimed_at,
  doneAt: row.done_at,
  messageId: row.message_id,
  note: row.note,
});

/** The next id: rows are in the order in which posts were last intended, and slots passed over. */
const newest = '(SELECT max(id) + 1 FROM job_run)';

/** The ledger of scheduled jobs: one row a job and local day, written before anything is posted. */
export function jobRunStore(db: Database) {
  const insert = db.prepare<{
    job: Job;
    day: LocalDay;
    state: string;
    at: Instant;
    doneAt: Instant | null;
    note: string | null;
  }>(`
    INSERT INTO job_run (job, slot, state, claimed_at, done_at, note) VALUES (@job, @day, @state, @at, @doneAt, @note)
    ON CONFLICT (job, slot) DO UPDATE SET id = ${newest}, state = @state, claimed_at = @at, done_at = @doneAt, note = @note, message_id = NULL
      WHERE job_run.state IN ('folded', 'skipped') AND job_run.claimed_at > @at`);
  const settle = db.prepare<{
    job: Job;
    day: LocalDay;
    state: string;
    at: Instant;
    messageId: string | null;
    note: string | null;
  }>(`
    UPDATE job_run SET id = CASE @state WHEN 'folded' THEN ${newest} ELSE id END,
      state = @state, done_at = @at, message_id = @messageId, note = @note
    WHERE job = @job AND slot = @day AND state = 'claimed'`);
  const claimAgain = db.prepare<[Job, LocalDay]>(
    `UPDATE job_run SET id = ${newest} WHERE job = ? AND slot = ? AND state = 'claimed'`,
  );
  const since = db.prepare<[LocalDay], Row>('SELECT * FROM job_run WHERE slot >= ? ORDER BY claimed_at, slot');
  // Looked at every minute, more than a year back: as rows without names, which are read in a fraction of the time.
  const states = db
    .prepare<[LocalDay], [Job, LocalDay, JobRun['state'], Instant]>(
      'SELECT job, slot, state, claimed_at FROM job_run WHERE slot >= ?',
    )
    .raw();
  const one = db.prepare<[Job, LocalDay], Row>('SELECT * FROM job_run WHERE job = ? AND slot = ?');
  // Seen from a post that was sent, or else from now.
  const folded = db.prepare<{ job: Job; day: LocalDay }, Row>(`
    WITH post AS (SELECT id FROM job_run WHERE job = @job AND slot = @day AND state = 'sent' AND message_id IS NOT NULL)
    SELECT * FROM job_run WHERE state = 'folded' AND (id < (SELECT id FROM post) OR NOT EXISTS (SELECT 1 FROM post))
      AND id > coalesce((SELECT max(id) FROM job_run WHERE state = 'sent' AND message_id IS NOT NULL
        AND (id < (SELECT id FROM post) OR NOT EXISTS (SELECT 1 FROM post))), 0)
    ORDER BY slot`);
  const sentBetween = db.prepare<[Instant, Instant], Row>(
    "SELECT * FROM job_run WHERE state = 'sent' AND message_id IS NOT NULL AND done_at > ? AND done_at <= ? ORDER BY done_at, slot",
  );
  const setSince = db.prepare<[string], { at: Instant | null }>(`
    SELECT max(e.logged_at) AS at FROM setting s JOIN live_entry e ON e.id = s.entry_id
    WHERE s.name IN (SELECT value FROM json_each(?))`);

  return {
    /** Every run of a slot from a local day on. */
    since: (day: LocalDay): JobRun[] => since.all(day).map(runOf),
    /** What stands of every slot from a local day on. */
    states: (day: LocalDay): SlotState[] =>
      states.all(day).map(([job, slot, state, claimedAt]) => ({ job, day: slot, state, claimedAt })),
    ofDay: (job: Job, day: LocalDay): JobRun | undefined => {
      const row = one.get(job, day);
      return row === undefined ? undefined : runOf(row);
    },
    /**
     * Notes that a slot is being run; false where it was taken before. A slot that was only folded or skipped while the clock ran
     * ahead of `at` is free again.
     */
    claim: (job: Job, day: LocalDay, at: Instant): boolean =>
      insert.run({ job, day, state: 'claimed', at, doneAt: null, note: null }).changes > 0,
    /** Notes that a claimed slot is being run once more: what was folded meanwhile is told now. */
    claimAgain: (job: Job, day: LocalDay): void => {
      claimAgain.run(job, day);
    },
    /** Notes what became of a claimed slot. */
    settle: (
      job: Job,
      day: LocalDay,
      result: { state: 'sent' | 'folded' | 'skipped'; at: Instant; messageId?: string; note?: string },
    ): void => {
      settle.run({
        job,
        day,
        state: result.state,
        at: result.at,
        messageId: result.messageId ?? null,
        note: result.note ?? null,
      });
    },
    /** Notes that a slot whose moment is past was not run; false where it was taken before. */
    pass: (job: Job, day: LocalDay, state: 'folded' | 'skipped', at: Instant, note: string): boolean =>
      insert.run({ job, day, state, at, doneAt: at, note }).changes > 0,
    /** Slots folded between the post before and this one, sent or still to come, by day. */
    foldedBefore: (job: Job, day: LocalDay): JobRun[] => folded.all({ job, day }).map(runOf),
    /** Posts sent after `from`, up to and including `to`, in order. */
    sentBetween: (from: Instant, to: Instant): JobRun[] => sentBetween.all(from, to).map(runOf),
    /** When one of these settings was last set; undefined: never. */
    settingsSince: (names: readonly string[]): Instant | undefined =>
      setSince.get(JSON.stringify(names))?.at ?? undefined,
  };
}
