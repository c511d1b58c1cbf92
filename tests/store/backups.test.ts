import { execFile } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Instant } from '../../src/domain/index.ts';
import { fileWords, stampOf } from '../../src/fileWords.ts';
import { holdFolder } from '../../src/instance.ts';
import { copyChecked } from '../../src/store/copies.ts';
import { migrations } from '../../src/store/migrate.ts';
import { databaseFile, openStore, type Store } from '../../src/store/open.ts';
import { putBack } from '../../src/store/putBack.ts';

const stamp = '2027-04-13-183000';
const newest = '2027-04-13T08:00:00.000Z' as Instant;

let folder: string;
let data: string;
let copy: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'berried-'));
  data = join(folder, 'data');
  copy = join(folder, 'copy.db');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Adds a line, one entry with one fact. */
function addLine(store: Store, name: string): void {
  store.write(() => {
    const by = { userId: 'u', name: 'wren', key: `key-${name}` };
    const entry = store.entries.add(by, 'line', `added line ${name}`, newest);
    store.tubs.addLine(entry, { name, priceMinor: null, saleableMm: 15, holdBack: 10 });
  });
}

/** A data folder with these lines, closed. */
function folderWith(...lines: string[]): void {
  const store = openStore(data);
  for (const name of lines) addLine(store, name);
  store.close();
}

function linesIn(file: string): string[] {
  const db = new Database(file, { readonly: true });
  try {
    return db
      .prepare<[], { name: string }>('SELECT name FROM line_version ORDER BY id')
      .all()
      .map(({ name }) => name);
  } finally {
    db.close();
  }
}

/** Overwrites the middle of a file with noise, which leaves its header as it is. */
function damage(file: string): void {
  const bytes = readFileSync(file);
  writeFileSync(file, bytes.fill(0xa5, 4096, bytes.length - 4096));
}

const inPlace = (): string => join(data, databaseFile);
const besideIt = (): string[] => readdirSync(data).filter((name) => name.startsWith('berried.db-'));

describe('a checked copy', () => {
  it('is whole, stands alone and holds what the open database has in its log', async () => {
    const store = openStore(data);
    addLine(store, 'orange');
    expect(besideIt()).toContain('berried.db-wal');
    const copied = await copyChecked(inPlace(), copy);
    addLine(store, 'green');
    store.close();
    expect(copied).toMatchObject({ ok: true, value: { schema: migrations.length, facts: 2, newestAt: newest } });
    expect(linesIn(copy)).toEqual(['orange']);
    expect(readdirSync(folder).sort()).toEqual(['copy.db', 'data']);
  });

  it('of a damaged database is refused and does not replace an older copy', async () => {
    folderWith('orange');
    await copyChecked(inPlace(), copy);
    damage(inPlace());
    const again = await copyChecked(inPlace(), copy);
    expect(again).toMatchObject({ ok: false, fault: expect.stringContaining('is damaged') });
    expect(linesIn(copy)).toEqual(['orange']);
    expect(readdirSync(folder).sort()).toEqual(['copy.db', 'data']);
  });
});

describe('putting a copy back', () => {
  it('replaces the database and keeps the former aside, with what its log held', async () => {
    folderWith('orange');
    await copyChecked(inPlace(), copy);
    const killed = openStore(data);
    addLine(killed, 'green');
    for (const ending of ['', '-wal', '-shm']) copyFileSync(`${inPlace()}${ending}`, join(folder, `kill${ending}`));
    killed.close();
    for (const ending of ['', '-wal', '-shm']) copyFileSync(join(folder, `kill${ending}`), `${inPlace()}${ending}`);

    const done = await putBack(data, copy, stamp);
    expect(done).toMatchObject({ ok: true, value: { aside: `berried-replaced-${stamp}.db`, facts: { facts: 2 } } });
    expect(linesIn(inPlace())).toEqual(['orange']);
    expect(linesIn(join(data, `berried-replaced-${stamp}.db`))).toEqual(['orange', 'green']);
    expect(besideIt()).toEqual([]);
    expect(existsSync(`${inPlace()}.restoring`)).toBe(false);
    openStore(data).close();
  });

  it('works where there is no database yet, and twice in the same second', async () => {
    folderWith('orange');
    await copyChecked(inPlace(), copy);
    rmSync(data, { recursive: true });
    mkdirSync(data);
    expect(await putBack(data, copy, stamp)).toMatchObject({ ok: true, value: { aside: null } });
    await putBack(data, copy, stamp);
    expect(await putBack(data, copy, stamp)).toMatchObject({
      ok: true,
      value: { aside: `berried-replaced-${stamp}-2.db` },
    });
    expect(linesIn(inPlace())).toEqual(['orange']);
  });

  it('mends a folder whose database can no longer be opened, and keeps the ruin with its log', async () => {
    folderWith('orange');
    await copyChecked(inPlace(), copy);
    writeFileSync(
      inPlace(),
      'not a database at all, but longer than the header of one would be, which is a hundred bytes or so',
    );
    writeFileSync(`${inPlace()}-wal`, 'a log');
    expect(await putBack(data, copy, stamp)).toMatchObject({ ok: true });
    expect(besideIt()).toEqual([]);
    expect(linesIn(inPlace())).toEqual(['orange']);
    expect(readFileSync(join(data, `berried-replaced-${stamp}.db`), 'utf8')).toContain('not a database at all');
    expect(readFileSync(join(data, `berried-replaced-${stamp}.db-wal`), 'utf8')).toBe('a log');
  });

  it('changes nothing while another program has the database open', async () => {
    folderWith('orange');
    await copyChecked(inPlace(), copy);
    const reader = new Database(inPlace(), { readonly: true });
    reader.exec('BEGIN; SELECT * FROM entry');
    expect(await putBack(data, copy, stamp)).toEqual({
      ok: false,
      fault: { of: 'present', is: 'is open in another program' },
    });
    reader.close();
    expect(readdirSync(data).filter((name) => /replaced|restoring/.test(name))).toEqual([]);
  });

  describe('changes nothing when the file', () => {
    beforeEach(async () => {
      folderWith('orange');
      await copyChecked(inPlace(), copy);
      const store = openStore(data);
      addLine(store, 'green');
      store.close();
    });

    const altered = (sql: string): void => {
      const db = new Database(copy);
      db.exec(sql);
      db.close();
    };
    const cases: readonly [string, () => void, string][] = [
      ['is damaged', () => damage(copy), 'is damaged'],
      ['has a newer schema', () => altered('PRAGMA user_version = 99'), 'newer version of Berried (schema 99'],
      ['points at nothing', () => altered('PRAGMA foreign_keys = OFF; DELETE FROM entry'), '2 rows point at nothing'],
      [
        'is of another program',
        () => altered('PRAGMA foreign_keys = OFF; DROP TABLE entry'),
        'not a database of Berried',
      ],
      ['is no database', () => writeFileSync(copy, 'x'.repeat(5000)), 'is not a database'],
      ['is empty', () => writeFileSync(copy, ''), 'not a database of Berried'],
      ['is not there', () => rmSync(copy), 'is not there'],
    ];
    it.each(cases)('%s', async (_, spoil, words) => {
      spoil();
      expect(await putBack(data, copy, stamp)).toMatchObject({
        ok: false,
        fault: { of: 'copy', is: expect.stringContaining(words) },
      });
      expect(linesIn(inPlace())).toEqual(['orange', 'green']);
      expect(readdirSync(data).filter((name) => /replaced|restoring/.test(name))).toEqual([]);
    });

    it('is the database in use', async () => {
      expect(await putBack(data, inPlace(), stamp)).toEqual({
        ok: false,
        fault: { of: 'copy', is: 'is the database in use' },
      });
    });
  });
});

describe('what the scripts say', () => {
  const facts = { schema: 1, facts: 3214, newestAt: newest, bytes: 1_234_567 };
  it.each([
    ['2027-04-13T08:07:59Z', '7 min ago'],
    ['2027-04-13T11:00:00Z', '3 h ago'],
    ['2027-04-16T09:00:00Z', '3 days ago'],
    ['2027-04-13T07:59:00Z', "ahead of this machine's clock"],
  ])('of a copy at %s', (now, age) => {
    const words = `1.2 MB, 3214 facts, the newest from 2027-04-13 08:00 UTC (${age})`;
    expect(fileWords(facts, new Date(now))).toBe(words);
  });

  it('names a copy by local date and time', () => {
    expect(stampOf(new Date(2027, 3, 3, 8, 5, 9))).toBe('2027-04-03-080509');
  });
});

describe('the scripts', () => {
  const run = (name: string, ...args: string[]): Promise<{ code: number; out: string; err: string }> =>
    new Promise((resolve) => {
      const script = fileURLToPath(new URL(`../../src/${name}.ts`, import.meta.url));
      const { PATH = '', HOME = '' } = process.env;
      const options = { env: { PATH, HOME, BERRIED_DATA: data } };
      execFile(process.execPath, ['--import', 'tsx', script, ...args], options, (error, out, err) =>
        resolve({ code: typeof error?.code === 'number' ? error.code : 0, out, err }),
      );
    });

  it('back up beside a running bot, refuse to restore under it, and restore once it is stopped', async () => {
    const store = openStore(data);
    addLine(store, 'orange');
    mkdirSync(join(data, 'photos'));
    writeFileSync(join(data, 'photos', '41.jpg'), 'a photo');
    const held = await holdFolder(data);

    const backup = await run('backup', copy);
    expect(backup).toMatchObject({ code: 0, err: '' });
    expect(backup.out).toMatch(
      /copy\.db, checked: \d+ kB, 2 facts, the newest from 2027-04-13 08:00 UTC .*; 1 photos beside it\.\n$/,
    );
    const again = await run('backup', copy);
    expect(again).toMatchObject({ code: 1, err: expect.stringContaining('copy.db is there already') });

    const locked = await run('restore', copy);
    expect(locked).toMatchObject({ code: 1, out: '', err: expect.stringContaining(`process ${process.pid}`) });
    store.close();
    if (held.ok) await held.value.release();
    rmSync(data, { recursive: true });

    const restored = await run('restore', copy);
    expect(restored).toMatchObject({ code: 0, err: '', out: expect.stringContaining('There was no database before.') });
    expect(linesIn(inPlace())).toEqual(['orange']);
    expect(readFileSync(join(data, 'photos', '41.jpg'), 'utf8')).toBe('a photo');
  });

  it('say what is missing', async () => {
    const [backup, restore] = await Promise.all([run('backup'), run('restore')]);
    expect(backup).toMatchObject({ code: 1, err: expect.stringContaining('there is no database in') });
    expect(restore).toMatchObject({ code: 1, err: expect.stringContaining('name the backup') });
  });
});
