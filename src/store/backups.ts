import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { LocalDay } from '../domain/index.ts';
import { copyChecked } from './copies.ts';

/** Dated backups that are kept. */
const kept = 14;

const dated = /^berried-\d{4}-\d{2}-\d{2}\.db$/;

/**
 * Dated copies of a database.
 * @param database its file, which may be in use
 * @param folder where the copies are kept
 */
export function backupStore(database: string, folder: string) {
  return {
    /**
     * Copies the database to the file of a day and checks the copy; one that fails the check does not replace an older one. The newest
     * fourteen are kept. Throws when the copy cannot be made or is not whole.
     */
    async make(day: LocalDay): Promise<{ readonly file: string; readonly bytes: number }> {
      mkdirSync(folder, { recursive: true });
      const file = join(folder, `berried-${day}.db`);
      const copied = await copyChecked(database, file);
      if (!copied.ok) throw new Error(`the database ${copied.fault}`);
      for (const old of names(folder).slice(0, -kept)) rmSync(join(folder, old));
      return { file, bytes: copied.value.bytes };
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
