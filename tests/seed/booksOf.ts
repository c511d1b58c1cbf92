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

/** What happened to the saleable animals of a tub, in order: a count says what is there, all else adds or takes. */
export interface StockEvent {
  readonly tub: number;
  readonly line: number;
  readonly counted: number | null;
  readonly by: number;
}

/** Counts, losses, moves and catches that are not voided, in the order in which they happened. */
export const stockEvents = (books: Books): StockEvent[] =>
  books
    .rows(`
      WITH event AS (
        SELECT entry_id, at, tub_id, saleable AS counted, 0 AS by FROM stock_count
        UNION ALL SELECT entry_id, at, tub_id, NULL, -number FROM loss
        UNION ALL SELECT entry_id, at, from_tub_id, NULL, -number FROM animal_move WHERE stage = 'saleable'
        UNION ALL SELECT entry_id, at, to_tub_id, NULL, number FROM animal_move WHERE stage = 'saleable'
        UNION ALL SELECT p.entry_id, p.at, c.tub_id, NULL, -c.number FROM parcel_catch c JOIN parcel p ON p.id = c.parcel_id)
      SELECT v.tub_id, v.counted, v.by, (SELECT max(t.line_id) FROM tub_version t WHERE t.tub_id = v.tub_id) AS line_id
      FROM event v JOIN live_entry e ON e.id = v.entry_id ORDER BY v.at, v.entry_id`)
    .map(({ tub_id, line_id, counted, by }) => ({
      tub: Number(tub_id),
      line: Number(line_id),
      counted: counted === null ? null : Number(counted),
      by: Number(by),
    }));
