import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, describe, expect, it } from 'vitest';
import { addTubs, setLine } from '../../src/desk/index.ts';
import { addDays, day } from '../../src/domain/index.ts';
import { runDue } from '../../src/jobs/runDue.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { taken } from '../support/sellingDesk.ts';
import { makeChannel, silentLog } from './channel.ts';

const opened: TestDesk[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

function stocked(): TestDesk {
  const test = deskAt('2027-04-12T18:00:00Z');
  opened.push(test);
  taken(setLine(test.desk, test.by('wren'), { line: 'jade' }));
  taken(addTubs(test.desk, test.by('wren'), { names: ['A1', 'A2'], line: 'jade', litres: 30 }));
  test.desk.store.settings.startedAt(test.desk.now());
  return test;
}

describe('a nightly backup', () => {
  it('is a whole database by itself, and leaves no other file', async () => {
    const test = stocked();
    const { file, bytes } = await test.desk.store.backups.make(day('2027-04-13'));
    const copy = new Database(file, { readonly: true });
    expect(copy.prepare('SELECT count(*) AS n FROM tub').get()).toEqual({ n: 2 });
    copy.close();
    expect(readFileSync(file)).toHaveLength(bytes);
    expect(readdirSync(join(test.folder, 'backups'))).toEqual(['berried-2027-04-13.db']);
  });

  it('keeps the newest fourteen, and nothing of others', async () => {
    const test = stocked();
    const { backups } = test.desk.store;
    expect(backups.names()).toEqual([]);
    writeFileSync(join(test.folder, 'backups', 'by-hand.db'), 'mine');
    const first = day('2027-04-01');
    for (let n = 0; n < 16; n++) await backups.make(addDays(first, n));
    expect(backups.names()).toHaveLength(14);
    expect(backups.names()[0]).toBe('berried-2027-04-03.db');
    expect(readdirSync(join(test.folder, 'backups'))).toContain('by-hand.db');
  });

  it('that fails is noted for the morning, and the morning is posted all the same', async () => {
    const test = stocked();
    const errors: string[] = [];
    writeFileSync(join(test.folder, 'backups'), 'a file where the folder should be');
    const channel = makeChannel();
    test.advance({ hours: 12 });
    await runDue(test.desk.now(), {
      desk: test.desk,
      posting: channel.posting,
      postOf: ({ job }) => (job === 'season' ? null : { card: { title: job } }),
      log: { ...silentLog, error: (_, text) => errors.push(text) },
    });
    expect(test.desk.store.jobRuns.ofDay('backup', day('2027-04-13'))?.note).toMatch(/^failed: EEXIST/);
    expect(errors).toEqual(['the nightly backup failed']);
    expect(channel.keys()).toEqual(['morning-2027-04-13']);
  });
});
