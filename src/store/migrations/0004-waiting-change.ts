import type { Migration } from '../migration.ts';

/** What became of a place on the waiting list: how many are still wanted from then on; 0: off the list. The latest that holds counts. */
export const waitingChange: Migration = {
  version: 4,
  name: 'waiting-change',
  sql: `
CREATE TABLE waiting_change (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  waiting_id INTEGER NOT NULL REFERENCES waiting (id),
  number INTEGER NOT NULL CHECK (number >= 0)
) STRICT;
CREATE INDEX waiting_change_by_waiting ON waiting_change (waiting_id, id);
`,
};
