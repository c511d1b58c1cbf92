import { join } from 'node:path';
import Database from 'better-sqlite3';
import { databaseFile } from '../../src/store/open.ts';

/** A row of the database as it stands there. */
export type Row = Readonly<Record<string, string | number | null>>;

/** The database of a data folder, read past the program that wrote it. */
export function booksOf(folder: string) {
  const db = new Database(join(folder, databaseFile), { readonly: true });
  const rows = (sql: string): Row[] => db.prepare<[], Row>(sql).all();
  return {
    rows,
    tables: (): string[] =>
      rows("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").map(({ name }) => String(name)),
    close: (): void => {
      db.close();
    },
  };
}

export type Books = ReturnType<typeof booksOf>;

/** Every row of every table, as text that can be compared. */
export const dumpOf = (books: Books): string[] =>
  books
    .tables()
    .flatMap((table) => books.rows(`SELECT * FROM ${table}`).map((row) => `${table} ${JSON.stringify(row)}`));
