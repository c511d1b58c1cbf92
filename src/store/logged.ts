import type { Instant, Logged } from '../domain/index.ts';

/** The columns that every dated fact has once joined with its entry. */
export interface LoggedRow {
  id: number;
  entry_id: number;
  at: Instant;
  user_name: string;
  logged_at: Instant;
}

export const loggedOf = (row: LoggedRow): Logged => ({
  id: row.id,
  entryId: row.entry_id,
  at: row.at,
  by: row.user_name,
  loggedAt: row.logged_at,
});
