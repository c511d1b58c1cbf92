import type { Instant, Logged } from '../domain/index.ts';

/** The columns that every dated fact has once joined with its entry. */
export interface LoggedRow {
  id: number;
  entry_id: number;
  at: Instant;
  user_name: string;
  logged_at: Instant;
}

/** Facts of a table, as `f`, with who logged them and when; those of voided entries are left out. Conditions can follow. */
export const liveFacts = (table: string): string =>
  `SELECT f.*, e.user_name, e.logged_at FROM ${table} f JOIN live_entry e ON e.id = f.entry_id`;

export const loggedOf = (row: LoggedRow): Logged => ({
  id: row.id,
  entryId: row.entry_id,
  at: row.at,
  by: row.user_name,
  loggedAt: row.logged_at,
});
