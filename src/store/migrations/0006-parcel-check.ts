import type { Migration } from '../migration.ts';

/** What was done and counted while a parcel was packed, each with the day that it was packed for; and from which tubs it was caught by then. */
export const parcelCheck: Migration = {
  version: 6,
  name: 'parcel-check',
  sql: `
CREATE TABLE parcel_check (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  sale_id INTEGER NOT NULL REFERENCES sale (id),
  at TEXT NOT NULL,
  step TEXT NOT NULL CHECK (step IN ('caught', 'counted', 'again', 'stood', 'slip', 'label')),
  number INTEGER CHECK (number >= 0),
  for_day TEXT NOT NULL
) STRICT;
CREATE INDEX parcel_check_by_sale ON parcel_check (sale_id, id);
CREATE TABLE parcel_check_catch (
  id INTEGER PRIMARY KEY,
  parcel_check_id INTEGER NOT NULL REFERENCES parcel_check (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  line_id INTEGER NOT NULL REFERENCES line (id),
  number INTEGER NOT NULL CHECK (number > 0)
) STRICT;
CREATE INDEX parcel_check_catch_by_check ON parcel_check_catch (parcel_check_id);
CREATE INDEX parcel_check_catch_by_tub ON parcel_check_catch (tub_id);
`,
};
