import type { Migration } from '../migration.ts';

/** What a chore hangs on beside its interval; and the rota as it was told last, each task with its day and partner, written anew as a whole. */
export const choreGrounds: Migration = {
  version: 3,
  name: 'chore-grounds',
  sql: `
ALTER TABLE chore_version ADD COLUMN season TEXT NOT NULL DEFAULT 'all' CHECK (season IN ('all', 'cool', 'warm'));
ALTER TABLE chore_version ADD COLUMN depends_on TEXT NOT NULL DEFAULT 'interval'
  CHECK (depends_on IN ('interval', 'warmth', 'young', 'hatch', 'hold', 'claim'));

CREATE TABLE rota_told (
  id INTEGER PRIMARY KEY,
  chore_id INTEGER NOT NULL REFERENCES chore (id),
  tub_id INTEGER REFERENCES tub (id),
  rack TEXT,
  on_day TEXT NOT NULL,
  user_id TEXT
) STRICT;
`,
};
