import { mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database, { type Database as Connection } from 'better-sqlite3';
import type { LocalDay } from '../domain/index.ts';

/** Dated backups that are kept. */
const kept = 14;

const dated = /^berried-\d{4}-\d{2}-\d{2}\.db$/;

/** Dated copies of the database, in `backups` beside it. */
export function backupStore(db: Connection, folder: string) {
  return {
    /**
     * Copies the live database to the file of a day and checks the copy; a copy that fails the check does not replace an older one.
     * The newest fourteen are kept. Throws when the copy cannot be made or is not whole.
     */
    async make(day: LocalDay): Promise<{ readonly file: string; readonly bytes: number }> {
      mkdirSync(folder, { recursive: true });
      const file = join(folder, `berried-${day}.db`);
      const unchecked = `${file}.part`;
      rmSync(unchecked, { force: true });
      await db.backup(unchecked);
      check(unchecked);
      renameSync(unchecked, file);
      for (const old of names(folder).slice(0, -kept)) rmSync(join(folder, old));
      return { file, bytes: statSync(file).size };
    },
    /** File names of the backups, the oldest first. */
    names: (): string[] => names(folder),
  };
}

function names(folder: string): string[] {
  mkdirSync(folder, { recursive: true });
  return readdirSync(folder)
    .filter((name) => dated.test(name))
    .sort();
}

/** Throws where the copy is damaged. */
function check(file: string): void {
  // The copy says that it keeps a write-ahead log; without one it is a single file that can be opened read-only anywhere.
  const own = new Database(file);
  own.pragma('journal_mode = DELETE');
  own.close();
  const copy = new Database(file, { readonly: true });
  try {
    const found = copy.pragma('integrity_check', { simple: true });
    if (found !== 'ok') throw new Error(`the backup is damaged: ${String(found)}`);
  } finally {
    copy.close();
  }
}
