import type { Database } from 'better-sqlite3';
import type { By, Entry, EntryKind, Instant, Person } from '../domain/index.ts';
import type { Freshness } from './freshness.ts';

interface Row {
  id: number;
  kind: EntryKind;
  summary: string;
  user_id: string;
  user_name: string;
  logged_at: Instant;
  voided_at: Instant | null;
  voided_by: string | null;
}

const entryOf = (row: Row): Entry => ({
  id: row.id,
  kind: row.kind,
  summary: row.summary,
  who: { userId: row.user_id, name: row.user_name },
  loggedAt: row.logged_at,
  voided: row.voided_at === null || row.voided_by === null ? null : { at: row.voided_at, by: row.voided_by },
});

/** The headings of all facts. */
export function entryStore(db: Database, fresh: Freshness) {
  const insert = db.prepare(
    'INSERT INTO entry (key, kind, summary, user_id, user_name, logged_at) VALUES (@key, @kind, @summary, @userId, @name, @at)',
  );
  const byKey = db.prepare<[string], Row>('SELECT * FROM entry WHERE key = ?');
  const byKeyStart = db.prepare<[string, string], Row>(
    'SELECT * FROM entry WHERE key = ? OR key GLOB ? ORDER BY id LIMIT 1',
  );
  const byId = db.prepare<[number], Row>('SELECT * FROM entry WHERE id = ?');
  // What was erased does not come back, so its entry is none to undo.
  const undoable = "SELECT * FROM entry WHERE voided_at IS NULL AND kind <> 'forget'";
  const latest = db.prepare<[number], Row>(`${undoable} ORDER BY id DESC LIMIT ?`);
  const latestOf = db.prepare<[string], Row>(`${undoable} AND user_id = ? ORDER BY id DESC LIMIT 1`);
  const newest = db.prepare<[], { id: number | null }>('SELECT max(id) AS id FROM entry');
  const mark = db.prepare<[Instant, string, string, number]>(
    'UPDATE entry SET voided_at = ?, voided_by_id = ?, voided_by = ? WHERE id = ? AND voided_at IS NULL',
  );
  const found = (row: Row | undefined): Entry | undefined => (row === undefined ? undefined : entryOf(row));

  let voids = 0;

  return {
    /** Changes with every entry that is added or voided. */
    version: (): string => `${newest.get()?.id ?? 0}.${voids}`,
    /** Writes a heading; its id. A key that was used before throws: look with `ofKey` first. */
    add: (by: By, kind: EntryKind, summary: string, at: Instant): number =>
      Number(insert.run({ key: by.key, userId: by.userId, name: by.name, kind, summary, at }).lastInsertRowid),
    ofKey: (key: string): Entry | undefined => found(byKey.get(key)),
    /** The first entry that an interaction wrote, under its own key or a numbered one (`key#1`). */
    ofInteraction: (key: string): Entry | undefined => found(byKeyStart.get(key, `${key}#*`)),
    get: (id: number): Entry | undefined => found(byId.get(id)),
    /** The last `count` entries that could be voided, newest first. */
    latest: (count: number): Entry[] => latest.all(count).map(entryOf),
    latestOf: (userId: string): Entry | undefined => found(latestOf.get(userId)),
    /** Voids an entry: its facts no longer count, but stay. */
    void: (id: number, by: Person, at: Instant): void => {
      mark.run(at, by.userId, by.name, id);
      voids += 1;
      fresh.noteVoid(id);
    },
  };
}
