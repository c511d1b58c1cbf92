import Database from 'better-sqlite3';
import type { Instant } from '../domain/index.ts';

/** An entry that was not written but may be: the command, what was typed, and what each offered button would change. */
export interface Draft {
  readonly id: number;
  readonly path: string;
  readonly raw: Readonly<Record<string, unknown>>;
  readonly patches: readonly Readonly<Record<string, unknown>>[];
}

/**
 * Unfinished entries, so that a question's button works after a restart and nothing typed is lost. They are no facts: they live in a
 * file of their own beside the database, are not backed up, and go after a week.
 */
export function draftStore(file: string) {
  const db = new Database(file);
  db.pragma('journal_mode = WAL');
  db.exec(
    'CREATE TABLE IF NOT EXISTS draft (id INTEGER PRIMARY KEY AUTOINCREMENT, at TEXT NOT NULL, path TEXT NOT NULL, raw TEXT NOT NULL, patches TEXT NOT NULL) STRICT',
  );
  const insert = db.prepare('INSERT INTO draft (at, path, raw, patches) VALUES (?, ?, ?, ?)');
  const select = db.prepare<[number], { id: number; path: string; raw: string; patches: string }>(
    'SELECT * FROM draft WHERE id = ?',
  );
  const remove = db.prepare('DELETE FROM draft WHERE id = ?');
  const prune = db.prepare('DELETE FROM draft WHERE at < ?');
  const texts = db.prepare<[], { id: number; text: string }>("SELECT id, raw || ' ' || patches AS text FROM draft");

  return {
    keep(at: Instant, draft: Omit<Draft, 'id'>): number {
      return Number(
        insert.run(at, draft.path, JSON.stringify(draft.raw), JSON.stringify(draft.patches)).lastInsertRowid,
      );
    },
    get(id: number): Draft | undefined {
      const row = select.get(id);
      return row && { id: row.id, path: row.path, raw: JSON.parse(row.raw), patches: JSON.parse(row.patches) };
    },
    drop: (id: number): void => {
      remove.run(id);
    },
    dropBefore: (at: Instant): void => {
      prune.run(at);
    },
    /** Drops every draft that holds one of these texts, in whatever case, and leaves nothing of it in the file. */
    dropMentioning: (words: readonly string[]): void => {
      // As they stand in the kept text, which escapes quotes and breaks.
      const sought = words.map((word) => JSON.stringify(word).slice(1, -1).toLowerCase()).filter((word) => word !== '');
      const found = texts.all().filter(({ text }) => sought.some((word) => text.toLowerCase().includes(word)));
      if (found.length === 0) return;
      for (const { id } of found) remove.run(id);
      db.exec('VACUUM');
      db.pragma('wal_checkpoint(TRUNCATE)');
    },
    close: (): void => {
      db.close();
    },
  };
}
