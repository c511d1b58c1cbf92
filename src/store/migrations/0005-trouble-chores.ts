import type { Migration } from '../migration.ts';

/** Chores may hang on a tub's trouble and be done by a test of ammonia and nitrite: the checks of a table are part of it, so it is made anew. */
export const troubleChores: Migration = {
  version: 5,
  name: 'trouble-chores',
  sql: `
CREATE TABLE chore_version_new (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  chore_id INTEGER NOT NULL REFERENCES chore (id),
  name TEXT NOT NULL,
  act TEXT NOT NULL CHECK (act IN ('change', 'reading', 'test', 'topup', 'own')),
  every_days INTEGER NOT NULL CHECK (every_days > 0),
  minutes REAL NOT NULL CHECK (minutes > 0),
  scope TEXT NOT NULL CHECK (scope IN ('tub', 'rack', 'business')),
  user_id TEXT,
  off INTEGER NOT NULL CHECK (off IN (0, 1)),
  season TEXT NOT NULL DEFAULT 'all' CHECK (season IN ('all', 'cool', 'warm')),
  depends_on TEXT NOT NULL DEFAULT 'interval'
    CHECK (depends_on IN ('interval', 'warmth', 'young', 'hatch', 'hold', 'claim', 'trouble'))
) STRICT;
INSERT INTO chore_version_new (id, entry_id, chore_id, name, act, every_days, minutes, scope, user_id, off, season, depends_on)
  SELECT id, entry_id, chore_id, name, act, every_days, minutes, scope, user_id, off, season, depends_on FROM chore_version;
DROP TABLE chore_version;
ALTER TABLE chore_version_new RENAME TO chore_version;
CREATE INDEX chore_version_by_chore ON chore_version (chore_id, id);
CREATE INDEX trouble_by_tub ON trouble (tub_id, at);
`,
};
