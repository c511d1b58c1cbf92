import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { endingOfFolder } from '../src/dataFolder.ts';
import { holdFolder } from '../src/instance.ts';
import { databaseFile, openStore } from '../src/store/open.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'berried-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

async function ending(work: () => unknown, of = folder) {
  try {
    await work();
    throw new Error('it worked');
  } catch (error) {
    return endingOfFolder(error, of);
  }
}

describe('a data folder that cannot be worked with', () => {
  it('is refused in a sentence where its database is of a newer version', async () => {
    openStore(folder).close();
    const db = new Database(join(folder, databaseFile));
    db.pragma('user_version = 999');
    db.close();
    expect(await ending(() => openStore(folder))).toEqual({
      sentence: expect.stringContaining('made by a newer version of Berried (schema 999;'),
      mayRetry: false,
    });
  });

  it('is refused in a sentence where the file is no database', async () => {
    writeFileSync(join(folder, databaseFile), 'not a database at all '.repeat(100));
    expect(await ending(() => openStore(folder))).toEqual({
      sentence: `${join(folder, databaseFile)} is damaged (file is not a database): restore a backup.`,
      mayRetry: false,
    });
  });

  it('is refused in a sentence where it is a file', async () => {
    const file = join(folder, 'file');
    writeFileSync(file, '');
    expect(await ending(() => holdFolder(file), file)).toEqual({
      sentence: expect.stringContaining(`The data folder ${file} cannot be used (`),
      mayRetry: false,
    });
  });

  it('is not blamed for a bug', async () => {
    expect(
      await ending(() => {
        throw new TypeError('a bug');
      }),
    ).toBeUndefined();
  });
});
