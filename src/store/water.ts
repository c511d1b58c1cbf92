import type { Database } from 'better-sqlite3';
import type { Change, Instant, Reading, TopUp, TopUpWater, WaterValueName, WaterValues } from '../domain/index.ts';
import type { Freshness } from './freshness.ts';
import { type LoggedRow, liveFacts, loggedOf } from './logged.ts';

interface ReadingRow extends LoggedRow {
  tub_id: number;
  temp_c: number | null;
  ph: number | null;
  gh_dgh: number | null;
  kh_dkh: number | null;
  tds_mg_l: number | null;
  ammonia_mg_l: number | null;
  nitrite_mg_l: number | null;
  nitrate_mg_l: number | null;
  note: string | null;
}

interface LitresRow extends LoggedRow {
  tub_id: number;
  litres: number;
}

const readingOf = (row: ReadingRow): Reading => ({
  ...loggedOf(row),
  tubId: row.tub_id,
  tempC: row.temp_c,
  ph: row.ph,
  ghDgh: row.gh_dgh,
  khDkh: row.kh_dkh,
  tdsMgL: row.tds_mg_l,
  ammoniaMgL: row.ammonia_mg_l,
  nitriteMgL: row.nitrite_mg_l,
  nitrateMgL: row.nitrate_mg_l,
  note: row.note,
});

const columns: Readonly<Record<WaterValueName, keyof ReadingRow>> = {
  tempC: 'temp_c',
  ph: 'ph',
  ghDgh: 'gh_dgh',
  khDkh: 'kh_dkh',
  tdsMgL: 'tds_mg_l',
  ammoniaMgL: 'ammonia_mg_l',
  nitriteMgL: 'nitrite_mg_l',
  nitrateMgL: 'nitrate_mg_l',
};

const changeOf = (row: LitresRow & { note: string | null }): Change => ({
  ...loggedOf(row),
  tubId: row.tub_id,
  litres: row.litres,
  note: row.note,
});

const topUpOf = (row: LitresRow & { water: TopUpWater }): TopUp => ({
  ...loggedOf(row),
  tubId: row.tub_id,
  litres: row.litres,
  water: row.water,
});

/** Later than any instant. */
const ever = '9999' as Instant;

/** Readings, water changes and top-ups. */
export function waterStore(db: Database, fresh: Freshness) {
  const addReading = db.prepare(`
    INSERT INTO reading (entry_id, tub_id, at, temp_c, ph, gh_dgh, kh_dkh, tds_mg_l, ammonia_mg_l, nitrite_mg_l, nitrate_mg_l, note)
    VALUES (@entryId, @tubId, @at, @tempC, @ph, @ghDgh, @khDkh, @tdsMgL, @ammoniaMgL, @nitriteMgL, @nitrateMgL, @note)`);
  const readings = db.prepare<[number, Instant], ReadingRow>(
    `${liveFacts('reading')} WHERE f.tub_id = ? AND f.at >= ? ORDER BY f.at, f.id`,
  );
  const readingOfEntry = db.prepare<[number], ReadingRow>(`${liveFacts('reading')} WHERE f.entry_id = ?`);
  const newest = 'ORDER BY f.at DESC, f.id DESC LIMIT 1';
  const latestReading = db.prepare<[number], ReadingRow>(`${liveFacts('reading')} WHERE f.tub_id = ? ${newest}`);
  const latestWith = new Map(
    (Object.keys(columns) as WaterValueName[]).map((name) => [
      name,
      db.prepare<[number, Instant], ReadingRow>(
        `${liveFacts('reading')} WHERE f.tub_id = ? AND f.at < ? AND f.${columns[name]} IS NOT NULL ${newest}`,
      ),
    ]),
  );
  const addChange = db.prepare(
    'INSERT INTO water_change (entry_id, tub_id, at, litres, note) VALUES (@entryId, @tubId, @at, @litres, @note)',
  );
  const changes = db.prepare<[number, Instant], LitresRow & { note: string | null }>(
    `${liveFacts('water_change')} WHERE f.tub_id = ? AND f.at >= ? ORDER BY f.at, f.id`,
  );
  const latestChange = db.prepare<[number, Instant], LitresRow & { note: string | null }>(
    `${liveFacts('water_change')} WHERE f.tub_id = ? AND f.at < ? ${newest}`,
  );
  const addTopUp = db.prepare(
    'INSERT INTO top_up (entry_id, tub_id, at, litres, water) VALUES (@entryId, @tubId, @at, @litres, @water)',
  );
  const topUps = db.prepare<[number, Instant], LitresRow & { water: TopUpWater }>(
    `${liveFacts('top_up')} WHERE f.tub_id = ? AND f.at >= ? ORDER BY f.at, f.id`,
  );
  const latestTopUp = db.prepare<[number, Instant], LitresRow & { water: TopUpWater }>(
    `${liveFacts('top_up')} WHERE f.tub_id = ? AND f.at < ? ${newest}`,
  );

  const temperatures = db.prepare<[], { entryId: number; tubId: number; at: Instant; tempC: number }>(`
    SELECT f.entry_id AS entryId, f.tub_id AS tubId, f.at, f.temp_c AS tempC
    FROM reading f JOIN live_entry e ON e.id = f.entry_id WHERE f.temp_c IS NOT NULL ORDER BY f.at, f.id`);

  return {
    /** Every temperature that was read in any tub, oldest first. */
    temperatures: (): { entryId: number; tubId: number; at: Instant; tempC: number }[] => temperatures.all(),
    addReading: (entryId: number, reading: WaterValues & { tubId: number; at: Instant; note: string | null }): void => {
      addReading.run({ ...reading, entryId });
      fresh.note('water', reading.tubId);
      if (reading.tempC !== null) fresh.noteTemperature();
    },
    /** Readings of a tub since an instant, oldest first. */
    readings: (tubId: number, since: Instant): Reading[] => readings.all(tubId, since).map(readingOf),
    /** The reading that an entry holds; undefined where the entry is voided or holds none. */
    readingOfEntry: (entryId: number): Reading | undefined => {
      const row = readingOfEntry.get(entryId);
      return row === undefined ? undefined : readingOf(row);
    },
    latestReading: (tubId: number): Reading | undefined => {
      const row = latestReading.get(tubId);
      return row === undefined ? undefined : readingOf(row);
    },
    /** The newest reading of a tub in which a value was read, before an instant where one is given. */
    latestWith: (tubId: number, name: WaterValueName, before: Instant = ever): Reading | undefined => {
      const row = latestWith.get(name)?.get(tubId, before);
      return row === undefined ? undefined : readingOf(row);
    },
    addChange: (entryId: number, change: { tubId: number; at: Instant; litres: number; note: string | null }): void => {
      addChange.run({ ...change, entryId });
      fresh.note('water', change.tubId);
    },
    changes: (tubId: number, since: Instant): Change[] => changes.all(tubId, since).map(changeOf),
    latestChange: (tubId: number, before: Instant = ever): Change | undefined => {
      const row = latestChange.get(tubId, before);
      return row === undefined ? undefined : changeOf(row);
    },
    addTopUp: (entryId: number, topUp: { tubId: number; at: Instant; litres: number; water: TopUpWater }): void => {
      addTopUp.run({ ...topUp, entryId });
      fresh.note('water', topUp.tubId);
    },
    latestTopUp: (tubId: number, before: Instant = ever): TopUp | undefined => {
      const row = latestTopUp.get(tubId, before);
      return row === undefined ? undefined : topUpOf(row);
    },
    topUps: (tubId: number, since: Instant): TopUp[] => topUps.all(tubId, since).map(topUpOf),
  };
}
