import { createHash } from 'node:crypto';
import Database from 'better-sqlite3';

/** Looks on at a database from outside, as another program would. */
export function watchDatabase(file: string) {
  const db = new Database(file, { readonly: true });
  const names = db
    .prepare<[], { name: string }>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .all()
    .map(({ name }) => name);
  const tables = names.map((name) => ({ name, rows: db.prepare(`SELECT * FROM "${name}"`).raw() }));

  return {
    /** A number that moves with every commit of anybody. */
    commits: (): number => Number(db.pragma('data_version', { simple: true })),
    /** Rows and a hash of each table. */
    tables: (): Map<string, string> =>
      new Map(
        tables.map(({ name, rows }) => {
          const all = rows.all();
          return [name, `${all.length} ${createHash('sha256').update(JSON.stringify(all)).digest('hex')}`];
        }),
      ),
    /** What is broken in the database, nothing where it is whole. */
    broken: (): unknown[] => [
      ...(db.pragma('foreign_key_check') as unknown[]),
      ...(db.pragma('quick_check') as { quick_check: string }[]).filter(({ quick_check }) => quick_check !== 'ok'),
    ],
    close: (): void => {
      db.close();
    },
  };
}
