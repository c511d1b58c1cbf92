import type { Database } from 'better-sqlite3';
import type {
  Chore,
  ChoreAct,
  ChoreDone,
  ChoreGround,
  ChoreHandOver,
  ChoreLater,
  ChorePlace,
  ChoreScope,
  ChoreSeason,
  Instant,
  LocalDay,
} from '../domain/index.ts';
import { type LoggedRow, liveFacts, loggedOf } from './logged.ts';
import { isCurrent } from './versions.ts';

interface ChoreRow {
  chore_id: number;
  name: string;
  act: ChoreAct;
  every_days: number;
  minutes: number;
  scope: ChoreScope;
  season: ChoreSeason;
  depends_on: ChoreGround;
  user_id: string | null;
  off: number;
  added_at: Instant;
}

interface PlaceRow extends LoggedRow {
  chore_id: number;
  tub_id: number | null;
  rack: string | null;
}

const choreOf = (row: ChoreRow): Chore => ({
  id: row.chore_id,
  name: row.name,
  act: row.act,
  everyDays: row.every_days,
  minutes: row.minutes,
  scope: row.scope,
  season: row.season,
  dependsOn: row.depends_on,
  userId: row.user_id,
  off: row.off === 1,
  addedAt: row.added_at,
});

const placeOf = (row: PlaceRow): ChorePlace & ReturnType<typeof loggedOf> => ({
  ...loggedOf(row),
  choreId: row.chore_id,
  tubId: row.tub_id,
  rack: row.rack,
});

/** Chores, and what became of them: done, put off, handed over. */
export function choreStore(db: Database) {
  const newChore = db.prepare<[number, Instant]>('INSERT INTO chore (entry_id, added_at) VALUES (?, ?)');
  const addVersion = db.prepare(`
    INSERT INTO chore_version (entry_id, chore_id, name, act, every_days, minutes, scope, season, depends_on, user_id, off)
    VALUES (@entryId, @id, @name, @act, @everyDays, @minutes, @scope, @season, @dependsOn, @userId, @off)`);
  const chores = db.prepare<[], ChoreRow>(`
    SELECT v.*, c.added_at FROM chore_version v JOIN chore c ON c.id = v.chore_id
    WHERE ${isCurrent('chore')} ORDER BY v.chore_id`);
  const anyFor = db.prepare<[ChoreGround], { id: number }>(
    'SELECT chore_id AS id FROM chore_version WHERE depends_on = ? LIMIT 1',
  );
  const any = db.prepare<[], { id: number }>('SELECT id FROM chore LIMIT 1');
  const latest = (table: string, places: string, only = ''): string => `
    SELECT f.*, e.user_name, e.logged_at FROM (${places}) p
    JOIN ${table} f ON f.id = (SELECT o.id FROM ${table} o JOIN live_entry oe ON oe.id = o.entry_id
      WHERE o.chore_id = p.chore_id AND o.tub_id IS p.tub_id AND o.rack IS p.rack ${only} ORDER BY o.at DESC, o.id DESC LIMIT 1)
    JOIN live_entry e ON e.id = f.entry_id`;
  const placesIn = (table: string): string => `SELECT DISTINCT chore_id, tub_id, rack FROM ${table}`;
  // Ten years of ticks are many rows in few places: each place there can be is looked up, and the rows are not gone through.
  const everyPlace = `SELECT c.id AS chore_id, p.tub_id, p.rack FROM chore c
    CROSS JOIN (SELECT id AS tub_id, NULL AS rack FROM tub
      UNION ALL SELECT NULL, rack FROM (SELECT DISTINCT rack FROM tub_version) UNION ALL SELECT NULL, NULL) p`;
  const addDone = db.prepare(
    'INSERT INTO chore_done (entry_id, chore_id, tub_id, rack, at) VALUES (@entryId, @choreId, @tubId, @rack, @at)',
  );
  const done = db.prepare<[Instant], PlaceRow>(`${liveFacts('chore_done')} WHERE f.at >= ? ORDER BY f.at, f.id`);
  const lastDone = db.prepare<[Instant], PlaceRow>(latest('chore_done', everyPlace, 'AND o.at < ?'));
  const addLater = db.prepare(`
    INSERT INTO chore_later (entry_id, chore_id, tub_id, rack, at, until_day, reason)
    VALUES (@entryId, @choreId, @tubId, @rack, @at, @until, @reason)`);
  const later = db.prepare<[], PlaceRow & { until_day: LocalDay; reason: string }>(
    latest('chore_later', placesIn('chore_later')),
  );
  const addHandOver = db.prepare(`
    INSERT INTO chore_hand_over (entry_id, chore_id, tub_id, rack, at, user_id)
    VALUES (@entryId, @choreId, @tubId, @rack, @at, @userId)`);
  const handOver = db.prepare<[], PlaceRow & { user_id: string }>(
    latest('chore_hand_over', placesIn('chore_hand_over')),
  );

  return {
    /** Chores as they are now, those that are off included, in the order in which they were added. */
    chores: (): Chore[] => chores.all().map(choreOf),
    /** Whether any chore was ever planned, undone ones included. */
    everPlanned: (): boolean => any.get() !== undefined,
    /** Whether any chore that hangs on something ever was, undone ones included. */
    everPlannedFor: (ground: ChoreGround): boolean => anyFor.get(ground) !== undefined,
    addChore: (entryId: number, chore: Omit<Chore, 'id'>): number => {
      const id = Number(newChore.run(entryId, chore.addedAt).lastInsertRowid);
      addVersion.run({ ...chore, id, entryId, off: Number(chore.off) });
      return id;
    },
    editChore: (entryId: number, chore: Chore): void => {
      addVersion.run({ ...chore, entryId, off: Number(chore.off) });
    },
    addDone: (entryId: number, place: ChorePlace, at: Instant): void => {
      addDone.run({ ...place, entryId, at });
    },
    /** Ticks since an instant, oldest first. */
    doneSince: (since: Instant): ChoreDone[] => done.all(since).map(placeOf),
    /** The last tick of each chore in each place before an instant. */
    lastDone: (before: Instant): ChoreDone[] => lastDone.all(before).map(placeOf),
    addLater: (entryId: number, place: ChorePlace, later: { at: Instant; until: LocalDay; reason: string }): void => {
      addLater.run({ ...place, ...later, entryId });
    },
    /** The last time that each chore was put off in each place. */
    later: (): ChoreLater[] =>
      later.all().map((row) => ({ ...placeOf(row), until: row.until_day, reason: row.reason })),
    addHandOver: (entryId: number, place: ChorePlace, over: { at: Instant; userId: string }): void => {
      addHandOver.run({ ...place, ...over, entryId });
    },
    /** The last time that each chore was handed over in each place. */
    handedOver: (): ChoreHandOver[] => handOver.all().map((row) => ({ ...placeOf(row), userId: row.user_id })),
  };
}
