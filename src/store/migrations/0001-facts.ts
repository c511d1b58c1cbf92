import type { Migration } from '../migration.ts';

/**
 * Every act is an entry (who, when, voided) with the facts that hang on it. What people can edit (tubs, lines, sales, chores …)
 * is kept as versions, each with its entry: the latest that is not voided holds, so undoing an edit brings the former back.
 * The first schema stands in one piece, as it comes into being in one piece.
 */
export const facts: Migration = {
  version: 1,
  name: 'facts',
  sql: `
CREATE TABLE started (id INTEGER PRIMARY KEY CHECK (id = 1), at TEXT NOT NULL) STRICT;

CREATE TABLE entry (
  id INTEGER PRIMARY KEY,
  key TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  summary TEXT NOT NULL,
  user_id TEXT NOT NULL,
  user_name TEXT NOT NULL,
  logged_at TEXT NOT NULL,
  voided_at TEXT,
  voided_by_id TEXT,
  voided_by TEXT,
  CHECK ((voided_at IS NULL) = (voided_by IS NULL))
) STRICT;
CREATE INDEX entry_by_time ON entry (logged_at);

CREATE TABLE setting (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  name TEXT NOT NULL,
  value TEXT NOT NULL
) STRICT;
CREATE INDEX setting_by_name ON setting (name, id);

CREATE TABLE partner_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  user_id TEXT NOT NULL,
  name TEXT NOT NULL,
  share_percent REAL CHECK (share_percent BETWEEN 0 AND 100),
  never TEXT NOT NULL,
  away_from TEXT,
  away_to TEXT,
  owner INTEGER NOT NULL CHECK (owner IN (0, 1)),
  removed INTEGER NOT NULL CHECK (removed IN (0, 1))
) STRICT;
CREATE INDEX partner_by_user ON partner_version (user_id, id);

CREATE TABLE line (id INTEGER PRIMARY KEY, entry_id INTEGER NOT NULL REFERENCES entry (id)) STRICT;
CREATE TABLE line_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  line_id INTEGER NOT NULL REFERENCES line (id),
  name TEXT NOT NULL,
  price_minor INTEGER CHECK (price_minor >= 0),
  saleable_mm REAL NOT NULL CHECK (saleable_mm > 0),
  hold_back INTEGER NOT NULL CHECK (hold_back >= 0)
) STRICT;
CREATE INDEX line_version_by_line ON line_version (line_id, id);

CREATE TABLE tub (id INTEGER PRIMARY KEY, entry_id INTEGER NOT NULL REFERENCES entry (id), added_at TEXT NOT NULL) STRICT;
CREATE TABLE tub_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  name TEXT NOT NULL,
  line_id INTEGER NOT NULL REFERENCES line (id),
  litres REAL NOT NULL CHECK (litres > 0),
  net_litres REAL NOT NULL CHECK (net_litres > 0 AND net_litres <= litres),
  rack TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('breeding', 'raising', 'selling', 'apart')),
  retired_at TEXT,
  retired_reason TEXT
) STRICT;
CREATE INDEX tub_version_by_tub ON tub_version (tub_id, id);

CREATE TABLE reading (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  temp_c REAL,
  ph REAL CHECK (ph BETWEEN 0 AND 14),
  gh_dgh REAL CHECK (gh_dgh >= 0),
  kh_dkh REAL CHECK (kh_dkh >= 0),
  tds_mg_l REAL CHECK (tds_mg_l >= 0),
  ammonia_mg_l REAL CHECK (ammonia_mg_l >= 0),
  nitrite_mg_l REAL CHECK (nitrite_mg_l >= 0),
  nitrate_mg_l REAL CHECK (nitrate_mg_l >= 0),
  note TEXT
) STRICT;
CREATE INDEX reading_by_tub ON reading (tub_id, at);

CREATE TABLE water_change (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  litres REAL NOT NULL CHECK (litres > 0),
  note TEXT
) STRICT;
CREATE INDEX water_change_by_tub ON water_change (tub_id, at);

CREATE TABLE top_up (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  litres REAL NOT NULL CHECK (litres > 0),
  water TEXT NOT NULL CHECK (water IN ('tap', 'soft'))
) STRICT;
CREATE INDEX top_up_by_tub ON top_up (tub_id, at);

CREATE TABLE stock_count (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  saleable INTEGER NOT NULL CHECK (saleable >= 0),
  juveniles INTEGER CHECK (juveniles >= 0),
  berried INTEGER CHECK (berried >= 0),
  method TEXT NOT NULL CHECK (method IN ('full', 'dish', 'glance', 'passes'))
) STRICT;
CREATE INDEX stock_count_by_tub ON stock_count (tub_id, at);

CREATE TABLE removal_passes (
  id INTEGER PRIMARY KEY,
  stock_count_id INTEGER NOT NULL UNIQUE REFERENCES stock_count (id),
  first INTEGER NOT NULL CHECK (first >= 0),
  second INTEGER NOT NULL CHECK (second >= 0),
  third INTEGER CHECK (third >= 0),
  fourth INTEGER CHECK (fourth >= 0)
) STRICT;

CREATE TABLE animal_move (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  from_tub_id INTEGER NOT NULL REFERENCES tub (id),
  to_tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  stage TEXT NOT NULL CHECK (stage IN ('saleable', 'juvenile')),
  CHECK (from_tub_id <> to_tub_id)
) STRICT;
CREATE INDEX animal_move_from ON animal_move (from_tub_id, at);
CREATE INDEX animal_move_to ON animal_move (to_tub_id, at);

CREATE TABLE loss (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  number INTEGER NOT NULL CHECK (number > 0),
  cause TEXT
) STRICT;
CREATE INDEX loss_by_tub ON loss (tub_id, at);

CREATE TABLE hold (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  reason TEXT NOT NULL,
  until_day TEXT,
  lifted INTEGER NOT NULL CHECK (lifted IN (0, 1))
) STRICT;
CREATE INDEX hold_by_tub ON hold (tub_id, id);

CREATE TABLE trouble (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  at TEXT NOT NULL,
  changed TEXT NOT NULL,
  seen TEXT NOT NULL
) STRICT;

CREATE TABLE goods (id INTEGER PRIMARY KEY, entry_id INTEGER NOT NULL REFERENCES entry (id)) STRICT;
CREATE TABLE goods_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  goods_id INTEGER NOT NULL REFERENCES goods (id),
  name TEXT NOT NULL,
  price_minor INTEGER CHECK (price_minor >= 0),
  line_id INTEGER REFERENCES line (id),
  keep_at_least INTEGER NOT NULL CHECK (keep_at_least >= 0)
) STRICT;
CREATE INDEX goods_version_by_goods ON goods_version (goods_id, id);
CREATE TABLE goods_stock (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  goods_id INTEGER NOT NULL REFERENCES goods (id),
  at TEXT NOT NULL,
  number INTEGER NOT NULL
) STRICT;
CREATE INDEX goods_stock_by_goods ON goods_stock (goods_id);

CREATE TABLE outlet (id INTEGER PRIMARY KEY, entry_id INTEGER NOT NULL REFERENCES entry (id)) STRICT;
CREATE TABLE outlet_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  outlet_id INTEGER NOT NULL REFERENCES outlet (id),
  name TEXT NOT NULL,
  percent REAL NOT NULL CHECK (percent BETWEEN 0 AND 100),
  fixed_minor INTEGER NOT NULL CHECK (fixed_minor >= 0),
  on_postage INTEGER NOT NULL CHECK (on_postage IN (0, 1))
) STRICT;
CREATE INDEX outlet_version_by_outlet ON outlet_version (outlet_id, id);

CREATE TABLE buyer (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  name TEXT NOT NULL,
  forgotten_at TEXT
) STRICT;

CREATE TABLE sale (id INTEGER PRIMARY KEY, entry_id INTEGER NOT NULL REFERENCES entry (id), added_at TEXT NOT NULL) STRICT;
CREATE TABLE sale_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  sale_id INTEGER NOT NULL REFERENCES sale (id),
  buyer_id INTEGER REFERENCES buyer (id),
  area TEXT,
  region TEXT,
  dispatch_on TEXT,
  price_minor INTEGER CHECK (price_minor >= 0),
  postage_minor INTEGER NOT NULL CHECK (postage_minor >= 0),
  outlet_id INTEGER REFERENCES outlet (id),
  kept_until TEXT NOT NULL,
  cancelled_at TEXT,
  cancelled_reason TEXT
) STRICT;
CREATE INDEX sale_version_by_sale ON sale_version (sale_id, id);
CREATE INDEX sale_version_by_buyer ON sale_version (buyer_id);
CREATE TABLE sale_item (
  id INTEGER PRIMARY KEY,
  sale_version_id INTEGER NOT NULL REFERENCES sale_version (id),
  line_id INTEGER REFERENCES line (id),
  goods_id INTEGER REFERENCES goods (id),
  number INTEGER NOT NULL CHECK (number > 0),
  extras INTEGER NOT NULL CHECK (extras >= 0),
  CHECK ((line_id IS NULL) <> (goods_id IS NULL))
) STRICT;
CREATE INDEX sale_item_by_version ON sale_item (sale_version_id);

CREATE TABLE payment (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  sale_id INTEGER NOT NULL REFERENCES sale (id),
  amount_minor INTEGER NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX payment_by_sale ON payment (sale_id);

CREATE TABLE parcel (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  sale_id INTEGER NOT NULL REFERENCES sale (id),
  tracking TEXT,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX parcel_by_sale ON parcel (sale_id);
CREATE TABLE parcel_tracking (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  parcel_id INTEGER NOT NULL REFERENCES parcel (id),
  tracking TEXT NOT NULL
) STRICT;
CREATE INDEX parcel_tracking_by_parcel ON parcel_tracking (parcel_id, id);
CREATE TABLE parcel_catch (
  id INTEGER PRIMARY KEY,
  parcel_id INTEGER NOT NULL REFERENCES parcel (id),
  tub_id INTEGER NOT NULL REFERENCES tub (id),
  line_id INTEGER NOT NULL REFERENCES line (id),
  number INTEGER NOT NULL CHECK (number > 0)
) STRICT;
CREATE INDEX parcel_catch_by_tub ON parcel_catch (tub_id);
CREATE INDEX parcel_catch_by_parcel ON parcel_catch (parcel_id);

CREATE TABLE arrival (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  sale_id INTEGER NOT NULL REFERENCES sale (id),
  delivered_at TEXT NOT NULL,
  dead INTEGER NOT NULL CHECK (dead >= 0),
  photo TEXT
) STRICT;
CREATE INDEX arrival_by_sale ON arrival (sale_id);

CREATE TABLE claim (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  sale_id INTEGER NOT NULL REFERENCES sale (id),
  at TEXT NOT NULL,
  dead INTEGER NOT NULL CHECK (dead >= 0),
  photo TEXT,
  note TEXT
) STRICT;
CREATE INDEX claim_by_sale ON claim (sale_id);
CREATE TABLE claim_settlement (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  claim_id INTEGER NOT NULL REFERENCES claim (id),
  how TEXT NOT NULL CHECK (how IN ('refund', 'resend', 'decline')),
  amount_minor INTEGER NOT NULL CHECK (amount_minor >= 0),
  resend_sale_id INTEGER REFERENCES sale (id),
  at TEXT NOT NULL
) STRICT;
CREATE INDEX claim_settlement_by_claim ON claim_settlement (claim_id);
CREATE INDEX claim_settlement_by_resend ON claim_settlement (resend_sale_id);

CREATE TABLE waiting (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  line_id INTEGER NOT NULL REFERENCES line (id),
  buyer_id INTEGER NOT NULL REFERENCES buyer (id),
  number INTEGER NOT NULL CHECK (number > 0),
  at TEXT NOT NULL
) STRICT;

CREATE TABLE weather (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  day TEXT NOT NULL,
  area TEXT NOT NULL,
  low_c REAL NOT NULL,
  high_c REAL NOT NULL,
  at TEXT NOT NULL,
  CHECK (low_c <= high_c)
) STRICT;
CREATE INDEX weather_by_day ON weather (day);

CREATE TABLE cost (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  at TEXT NOT NULL,
  amount_minor INTEGER NOT NULL CHECK (amount_minor > 0),
  what TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('feed', 'packing', 'postage', 'gear', 'tub', 'other')),
  tub_id INTEGER REFERENCES tub (id)
) STRICT;

CREATE TABLE closed_window (id INTEGER PRIMARY KEY, entry_id INTEGER NOT NULL REFERENCES entry (id)) STRICT;
CREATE TABLE closed_window_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  closed_window_id INTEGER NOT NULL REFERENCES closed_window (id),
  name TEXT NOT NULL,
  from_md TEXT NOT NULL,
  to_md TEXT NOT NULL,
  removed INTEGER NOT NULL CHECK (removed IN (0, 1))
) STRICT;
CREATE INDEX closed_window_version_by_window ON closed_window_version (closed_window_id, id);

CREATE TABLE chore (id INTEGER PRIMARY KEY, entry_id INTEGER NOT NULL REFERENCES entry (id), added_at TEXT NOT NULL) STRICT;
CREATE TABLE chore_version (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  chore_id INTEGER NOT NULL REFERENCES chore (id),
  name TEXT NOT NULL,
  act TEXT NOT NULL CHECK (act IN ('change', 'reading', 'topup', 'own')),
  every_days INTEGER NOT NULL CHECK (every_days > 0),
  minutes REAL NOT NULL CHECK (minutes > 0),
  scope TEXT NOT NULL CHECK (scope IN ('tub', 'rack', 'business')),
  user_id TEXT,
  off INTEGER NOT NULL CHECK (off IN (0, 1))
) STRICT;
CREATE INDEX chore_version_by_chore ON chore_version (chore_id, id);

CREATE TABLE chore_done (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  chore_id INTEGER NOT NULL REFERENCES chore (id),
  tub_id INTEGER REFERENCES tub (id),
  rack TEXT,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX chore_done_by_chore ON chore_done (chore_id, at);
CREATE TABLE chore_later (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  chore_id INTEGER NOT NULL REFERENCES chore (id),
  tub_id INTEGER REFERENCES tub (id),
  rack TEXT,
  at TEXT NOT NULL,
  until_day TEXT NOT NULL,
  reason TEXT NOT NULL
) STRICT;
CREATE INDEX chore_later_by_chore ON chore_later (chore_id, id);
CREATE TABLE chore_hand_over (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  chore_id INTEGER NOT NULL REFERENCES chore (id),
  tub_id INTEGER REFERENCES tub (id),
  rack TEXT,
  at TEXT NOT NULL,
  user_id TEXT NOT NULL
) STRICT;
CREATE INDEX chore_hand_over_by_chore ON chore_hand_over (chore_id, id);

CREATE TABLE job_run (
  id INTEGER PRIMARY KEY,
  job TEXT NOT NULL,
  slot TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('claimed', 'sent', 'folded', 'skipped')),
  claimed_at TEXT NOT NULL,
  done_at TEXT,
  message_id TEXT,
  note TEXT,
  UNIQUE (job, slot)
) STRICT;

CREATE VIEW live_entry AS SELECT * FROM entry WHERE voided_at IS NULL;
`,
};
