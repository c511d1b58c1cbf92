import type { Database } from 'better-sqlite3';
import type { ClosedWindow, MonthDay } from '../domain/index.ts';
import { currentVersions } from './versions.ts';

interface WindowRow {
  closed_window_id: number;
  name: string;
  from_md: MonthDay;
  to_md: MonthDay;
}

/** The closed windows of the year. */
export function seasonStore(db: Database) {
  const windows = db.prepare<[], WindowRow>(`
    ${currentVersions('closed_window')} AND v.removed = 0 ORDER BY v.from_md, v.closed_window_id`);
  const insert = db.prepare<[number]>('INSERT INTO closed_window (entry_id) VALUES (?)');
  const insertVersion = db.prepare(`
    INSERT INTO closed_window_version (entry_id, closed_window_id, name, from_md, to_md, removed)
    VALUES (@entryId, @id, @name, @from, @to, @removed)`);

  return {
    /** Those that hold now, in the order of the year. */
    windows: (): ClosedWindow[] =>
      windows.all().map((row) => ({ id: row.closed_window_id, name: row.name, from: row.from_md, to: row.to_md })),
    addWindow: (entryId: number, added: Omit<ClosedWindow, 'id'>): number => {
      const id = Number(insert.run(entryId).lastInsertRowid);
      insertVersion.run({ ...added, id, entryId, removed: 0 });
      return id;
    },
    editWindow: (entryId: number, edited: ClosedWindow): void => {
      insertVersion.run({ ...edited, entryId, removed: 0 });
    },
    removeWindow: (entryId: number, removed: ClosedWindow): void => {
      insertVersion.run({ ...removed, entryId, removed: 1 });
    },
  };
}
