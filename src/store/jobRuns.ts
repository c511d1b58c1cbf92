import type { Database } from 'better-sqlite3';
import type { Instant, Job, JobRun, LocalDay } from '../domain/index.ts';

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
    ON CONFLICT (job, slot) DO UPDATE SET state = @state, claimed_at = @at, done_at = @doneAt, note = @note, message_id = NULL
      WHERE job_run.state IN ('folded', 'skipped') AND job_run.claimed_at > @at`);
  const settle = db.prepare<{
    job: Job;
    day: LocalDay;
    state: string;
    at: Instant;
    messageId: string | null;
    note: string | null;
  }>(`
    UPDATE job_run SET state = @state, done_at = @at, message_id = @messageId, note = @note
    WHERE job = @job AND slot = @day AND state = 'claimed'`);
  const since = db.prepare<[LocalDay], Row>('SELECT * FROM job_run WHERE slot >= ? ORDER BY claimed_at, slot');
  const one = db.prepare<[Job, LocalDay], Row>('SELECT * FROM job_run WHERE job = ? AND slot = ?');
  const folded = db.prepare<[], Row>(`
    SELECT * FROM job_run WHERE state = 'folded'
      AND id > coalesce((SELECT max(id) FROM job_run WHERE state = 'sent' AND message_id IS NOT NULL), 0)
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
    /** Slots folded since the last post that was sent, by day. */
    foldedSinceLastPost: (): JobRun[] => folded.all().map(runOf),
    /** Posts sent after `from`, up to and including `to`, in order. */
    sentBetween: (from: Instant, to: Instant): JobRun[] => sentBetween.all(from, to).map(runOf),
    /** When one of these settings was last set; undefined: never. */
    settingsSince: (names: readonly string[]): Instant | undefined =>
      setSince.get(JSON.stringify(names))?.at ?? undefined,
  };
}
