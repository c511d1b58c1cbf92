import type { Migration } from '../migration.ts';

/** What asks of a place or of a few days finds them by an index, however many years were logged. */
export const longHistory: Migration = {
  version: 7,
  name: 'long-history',
  sql: `
CREATE INDEX chore_done_by_place ON chore_done (chore_id, tub_id, rack, at);
CREATE INDEX chore_later_by_place ON chore_later (chore_id, tub_id, rack, at);
CREATE INDEX chore_hand_over_by_place ON chore_hand_over (chore_id, tub_id, rack, at);
CREATE INDEX sale_by_time ON sale (added_at);
CREATE INDEX sale_version_by_dispatch ON sale_version (dispatch_on);
CREATE INDEX payment_by_time ON payment (at);
CREATE INDEX parcel_by_time ON parcel (at);
`,
};
