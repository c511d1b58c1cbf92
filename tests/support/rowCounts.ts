import { join } from 'node:path';
import Database from 'better-sqlite3';
import { databaseFile } from '../../src/store/open.ts';

/** The rows of every table of the database in a folder, by table: equal before and after where nothing was written. */
export function rowCounts(folder: string): Record<string, number> {
  const db = new Database(join(folder, databaseFile), { readonly: true });
  const tables = db
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    .all();
  const counts = tables.map(({ name }) => [
    name,
    db.prepare<[], { n: number }>(`SELECT count(*) AS n FROM "${name}"`).get()?.n ?? 0,
  ]);
  db.close();
  return Object.fromEntries(counts);
}
