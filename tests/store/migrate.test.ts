import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { migrate, migrations, NewerDatabase } from '../../src/store/migrate.ts';
import { databaseFile, openStore } from '../../src/store/open.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'berried-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const openFile = () => new Database(join(folder, databaseFile));
const tablesOf = (db: Database.Database) =>
  db.prepare<[], { name: string; sql: string }>("SELECT name, sql FROM sqlite_master WHERE type = 'table'").all();

describe('the migrations', () => {
  it('have versions from 1 up without a gap', () => {
    expect(migrations.map(({ version }) => version)).toEqual(migrations.map((_, index) => index + 1));
  });

  it('bring a fresh file to the latest version, once', () => {
    const db = openFile();
    migrate(db);
    const tables = tablesOf(db);
    expect(db.pragma('user_version', { simple: true })).toBe(migrations.at(-1)?.version);
    migrate(db);
    expect(tablesOf(db)).toEqual(tables);
    expect(tables.length).toBeGreaterThan(20);
    db.close();
  });

  it('make every table a strict one', () => {
    const db = openFile();
    migrate(db);
    const loose = tablesOf(db).filter(({ name, sql }) => !name.startsWith('sqlite_') && !/\)\s*STRICT$/i.test(sql));
    expect(loose.map(({ name }) => name)).toEqual([]);
    db.close();
  });

  it('run each in a transaction of its own: a broken one leaves the version and the tables before it', () => {
    const db = openFile();
    const good = { version: 1, name: 'good', sql: 'CREATE TABLE a (id INTEGER PRIMARY KEY) STRICT;' };
    const broken = {
      version: 2,
      name: 'broken',
      sql: 'CREATE TABLE b (id INTEGER) STRICT; CREATE TABLE a (id INTEGER);',
    };
    expect(() => migrate(db, [good, broken])).toThrow('already exists');
    expect(tablesOf(db).map(({ name }) => name)).toEqual(['a']);
    expect(db.pragma('user_version', { simple: true })).toBe(1);
    db.close();
  });

  it('do not leave a reference in the air', () => {
    const db = openFile();
    const first = {
      version: 1,
      name: 'first',
      sql: 'CREATE TABLE a (id INTEGER PRIMARY KEY) STRICT; CREATE TABLE b (a_id INTEGER REFERENCES a (id)) STRICT; INSERT INTO a VALUES (1); INSERT INTO b VALUES (1);',
    };
    const second = { version: 2, name: 'second', sql: 'DELETE FROM a;' };
    expect(() => migrate(db, [first, second])).toThrow('migration 2 (second) leaves 1 broken references');
    expect(db.prepare('SELECT count(*) AS n FROM a').get()).toEqual({ n: 1 });
    db.close();
  });
});

it('chores of an older version are all there after their table was made anew, off ones too', () => {
  const db = openFile();
  migrate(db, migrations.slice(0, 4));
  db.exec(`
    INSERT INTO entry (key, kind, summary, user_id, user_name, logged_at) VALUES ('k', 'chore', 'x', 'u', 'wren', '2027');
    INSERT INTO chore (entry_id, added_at) VALUES (1, '2027');
    INSERT INTO chore_version (entry_id, chore_id, name, act, every_days, minutes, scope, user_id, off, season, depends_on)
      VALUES (1, 1, 'feed', 'own', 2, 6, 'rack', NULL, 0, 'warm', 'warmth'), (1, 1, 'feed', 'own', 3, 6.5, 'rack', 'u', 1, 'all', 'hold');`);
  const before = db.prepare('SELECT * FROM chore_version ORDER BY id').all();
  migrate(db);
  expect(before).toHaveLength(2);
  expect(db.prepare('SELECT * FROM chore_version ORDER BY id').all()).toEqual(before);
  expect(() => db.exec("UPDATE chore_version SET act = 'test', depends_on = 'trouble' WHERE id = 2")).not.toThrow();
  db.close();
});

describe('a database of a newer version', () => {
  it('is refused with a sentence that says what to do, and left as it was', () => {
    openStore(folder).close();
    const db = openFile();
    db.pragma('user_version = 99');
    db.close();
    const open = () => openStore(folder);
    expect(open).toThrow(NewerDatabase);
    expect(open).toThrow(
      /^This database was made by a newer version of Berried \(schema 99; this program knows \d+\)\. Start the newer program, or restore an older backup\.$/,
    );
    const after = openFile();
    expect(after.pragma('user_version', { simple: true })).toBe(99);
    after.close();
  });
});

describe('an opened store', () => {
  it('keeps a write-ahead log, which the file remembers', () => {
    openStore(folder).close();
    const db = openFile();
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    db.close();
  });

  it('lets another program read while it is open', () => {
    const store = openStore(folder);
    store.entries.add(
      { userId: '1', name: 'wren', key: 'k' },
      'cost',
      'feed',
      store.settings.startedAt('2027-04-13T08:00:00.000Z' as never),
    );
    const reader = new Database(join(folder, databaseFile), { readonly: true });
    expect(reader.prepare('SELECT summary FROM entry').all()).toEqual([{ summary: 'feed' }]);
    reader.close();
    store.close();
  });
});
