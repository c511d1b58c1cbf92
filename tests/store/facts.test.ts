import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { By, EntryKind, Instant } from '../../src/domain/index.ts';
import { migrate } from '../../src/store/migrate.ts';
import { databaseFile } from '../../src/store/open.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';

let bench: TestDesk;
let keys = 0;
beforeEach(() => {
  bench = deskAt('2027-04-13T08:00:00Z');
});
afterEach(() => bench.close());

const at = '2027-04-13T08:00:00.000Z' as Instant;

/** A new entry of wren's. */
function entry(kind: EntryKind): number {
  keys += 1;
  const by: By = { userId: 'user-wren', name: 'wren', key: `fact-${keys}` };
  return bench.desk.store.entries.add(by, kind, kind, at);
}

const voided = (id: number): void => bench.desk.store.entries.void(id, { userId: 'user-wren', name: 'wren' }, at);

const newLine = (name: string) =>
  bench.desk.store.tubs.addLine(entry('line'), { name, priceMinor: null, saleableMm: 15, holdBack: 10 });

const newTub = (name: string, lineId: number) =>
  bench.desk.store.tubs.addTub(entry('tub'), {
    name,
    lineId,
    litres: 25,
    netLitres: 20,
    rack: 'A',
    role: 'breeding',
    addedAt: at,
  });

describe('what can be edited', () => {
  it('is as the latest version says, and as the former one when that is undone', () => {
    const { tubs } = bench.desk.store;
    const id = newLine('orange');
    const edit = entry('line');
    tubs.editLine(edit, { id, name: 'orange', priceMinor: 250, saleableMm: 15, holdBack: 12 });
    expect(tubs.lines()).toEqual([{ id, name: 'orange', priceMinor: 250, saleableMm: 15, holdBack: 12 }]);
    voided(edit);
    expect(tubs.lines()).toEqual([{ id, name: 'orange', priceMinor: null, saleableMm: 15, holdBack: 10 }]);
  });

  it('is not there when its beginning is undone', () => {
    const { tubs, entries } = bench.desk.store;
    newLine('orange');
    voided(entries.latest(1)[0]?.id ?? 0);
    expect(tubs.lines()).toEqual([]);
  });

  it('carries the name that its line has now', () => {
    const { tubs } = bench.desk.store;
    const lineId = newLine('orange');
    const tub = newTub('A1', lineId);
    tubs.editLine(entry('line'), { id: lineId, name: 'amber', priceMinor: null, saleableMm: 15, holdBack: 10 });
    expect(tubs.tub(tub)).toMatchObject({ name: 'A1', lineName: 'amber', retired: null });
  });

  it('lets a retired tub come back when that is undone', () => {
    const { tubs } = bench.desk.store;
    const id = newTub('A1', newLine('orange'));
    const tub = tubs.tub(id);
    if (tub === undefined) throw new Error('not added');
    const retired = entry('tub');
    tubs.editTub(retired, { ...tub, retired: { at, reason: 'leaks' } });
    expect(tubs.tub(id)?.retired).toEqual({ at, reason: 'leaks' });
    voided(retired);
    expect(tubs.tub(id)?.retired).toBeNull();
  });

  it('stands in rack order, A2 before A10', () => {
    const lineId = newLine('orange');
    for (const name of ['A10', 'A2', 'A1']) newTub(name, lineId);
    expect(bench.desk.store.tubs.tubs().map(({ name }) => name)).toEqual(['A1', 'A2', 'A10']);
  });

  it('is a setting by name: another setting does not touch it', () => {
    const { settings } = bench.desk.store;
    const first = entry('business');
    settings.set(first, 'currency', 'GBP');
    settings.set(first, 'units', 'us');
    const second = entry('business');
    settings.set(second, 'currency', 'USD');
    expect(Object.fromEntries(settings.all())).toEqual({ currency: 'USD', units: 'us' });
    voided(second);
    expect(Object.fromEntries(settings.all())).toEqual({ currency: 'GBP', units: 'us' });
  });

  it('is a partner in the order in which they came, gone when removed and back when that is undone', () => {
    const { settings } = bench.desk.store;
    const wren = {
      userId: 'user-wren',
      name: 'wren',
      sharePercent: null,
      never: ['feed'],
      awayFrom: null,
      awayTo: null,
      owner: true,
    };
    settings.setPartner(entry('partner'), wren, false);
    settings.setPartner(entry('partner'), { ...wren, userId: 'user-alder', name: 'alder', owner: false }, false);
    const removal = entry('partner');
    settings.setPartner(removal, wren, true);
    expect(settings.partners().map(({ name }) => name)).toEqual(['alder']);
    voided(removal);
    expect(settings.partners()).toEqual([wren, { ...wren, userId: 'user-alder', name: 'alder', owner: false }]);
  });

  it('notes the first start once', () => {
    const { settings } = bench.desk.store;
    expect(settings.startedAt(at)).toBe(at);
    expect(settings.startedAt('2028-01-01T00:00:00.000Z' as Instant)).toBe(at);
  });
});

describe('dated facts', () => {
  it('come back in the order in which they happened, without the voided ones', () => {
    const { water } = bench.desk.store;
    const tubId = newTub('A1', newLine('orange'));
    const later = entry('change');
    water.addChange(later, { tubId, at: '2027-04-12T08:00:00.000Z' as Instant, litres: 5, note: null });
    water.addChange(entry('change'), { tubId, at: '2027-04-10T08:00:00.000Z' as Instant, litres: 2, note: 'late' });
    expect(water.changes(tubId, '' as Instant).map(({ litres }) => litres)).toEqual([2, 5]);
    expect(water.changes(tubId, '2027-04-12T08:00:00.000Z' as Instant)).toMatchObject([
      { litres: 5, by: 'wren', loggedAt: at },
    ]);
    voided(later);
    expect(water.changes(tubId, '' as Instant)).toMatchObject([{ litres: 2, note: 'late' }]);
  });

  it('take the latest count by when it was counted, not by when it was typed', () => {
    const { animals } = bench.desk.store;
    const tubId = newTub('A1', newLine('orange'));
    const count = { tubId, juveniles: null, berried: null, method: 'full' as const };
    animals.addCount(entry('count'), { ...count, saleable: 40, at: '2027-04-12T08:00:00.000Z' as Instant });
    animals.addCount(entry('count'), { ...count, saleable: 90, at: '2027-03-12T08:00:00.000Z' as Instant });
    expect(animals.latestCount(tubId)).toMatchObject({ saleable: 40 });
    expect(animals.counts(tubId, '' as Instant).map(({ saleable }) => saleable)).toEqual([90, 40]);
  });

  it('keep what each removal pass caught with the count, and lose it with a voided one', () => {
    const { animals } = bench.desk.store;
    const tubId = newTub('A1', newLine('orange'));
    const full = { tubId, at, saleable: 40, juveniles: null, berried: null, method: 'full' as const };
    animals.addCount(entry('count'), full);
    const byTwo = entry('count');
    animals.addPassesCount(byTwo, { tubId, at, saleable: 122, passes: [79, 28] });
    expect(animals.latestCount(tubId)).toMatchObject({ saleable: 122, method: 'passes', passes: [79, 28] });
    const byFour = entry('count');
    animals.addPassesCount(byFour, { tubId, at, saleable: 24, passes: [12, 6, 3, 0] });
    expect(animals.counts(tubId, '' as Instant).map(({ passes }) => passes)).toEqual([null, [79, 28], [12, 6, 3, 0]]);
    voided(byTwo);
    voided(byFour);
    expect(animals.counts(tubId, '' as Instant)).toMatchObject([{ saleable: 40, method: 'full', passes: null }]);
  });

  it('hold a tub until the hold is lifted', () => {
    const { animals } = bench.desk.store;
    const tubId = newTub('A1', newLine('orange'));
    expect(animals.latestHold(tubId)).toBeUndefined();
    animals.addHold(entry('hold'), { tubId, at, reason: 'medicine', until: null }, false);
    expect(animals.latestHold(tubId)).toMatchObject({ reason: 'medicine', until: null });
    animals.addHold(entry('hold'), { tubId, at, reason: 'well again', until: null }, true);
    expect(animals.latestHold(tubId)).toBeUndefined();
  });
});

describe('the schema', () => {
  /** The same schema on a connection of the test's own, with a tub in it. */
  function raw(): Database.Database {
    const db = new Database(':memory:');
    migrate(db);
    db.exec(`
      INSERT INTO entry (id, key, kind, summary, user_id, user_name, logged_at) VALUES (1, 'k', 'tub', 's', 'u', 'n', '${at}');
      INSERT INTO line (id, entry_id) VALUES (1, 1);
      INSERT INTO tub (id, entry_id, added_at) VALUES (1, 1, '${at}');`);
    return db;
  }

  it.each([
    [
      'text where a number belongs',
      "INSERT INTO reading (entry_id, tub_id, at, temp_c) VALUES (1, 1, 'x', 'warm')",
      'cannot store TEXT',
    ],
    ['half an animal', "INSERT INTO loss (entry_id, tub_id, at, number) VALUES (1, 1, 'x', 1.5)", 'cannot store REAL'],
    ['no animal', "INSERT INTO loss (entry_id, tub_id, at, number) VALUES (1, 1, 'x', 0)", 'CHECK constraint'],
    ['pH 74', "INSERT INTO reading (entry_id, tub_id, at, ph) VALUES (1, 1, 'x', 74)", 'CHECK constraint'],
    [
      'a change of nothing',
      "INSERT INTO water_change (entry_id, tub_id, at, litres) VALUES (1, 1, 'x', 0)",
      'CHECK constraint',
    ],
    [
      'more net than gross',
      "INSERT INTO tub_version (entry_id, tub_id, name, line_id, litres, net_litres, rack, role) VALUES (1, 1, 'A1', 1, 20, 25, 'A', 'breeding')",
      'CHECK constraint',
    ],
    ['a tub that is not there', "INSERT INTO loss (entry_id, tub_id, at, number) VALUES (1, 7, 'x', 1)", 'FOREIGN KEY'],
    ['a fact without an entry', "INSERT INTO loss (entry_id, tub_id, at, number) VALUES (7, 1, 'x', 1)", 'FOREIGN KEY'],
    [
      'a move into the same tub',
      "INSERT INTO animal_move (entry_id, from_tub_id, to_tub_id, at, number, stage) VALUES (1, 1, 1, 'x', 1, 'saleable')",
      'CHECK constraint',
    ],
  ])('refuses %s', (_, sql, message) => {
    const db = raw();
    expect(() => db.exec(sql)).toThrow(message);
    db.close();
  });

  it('syncs fully and checks references on the connection that the store opens', () => {
    // The pragmas belong to the connection, so they are watched while a store opens its own.
    const asked: string[] = [];
    const { pragma } = Database.prototype;
    Database.prototype.pragma = function (this: Database.Database, source: string, options?: Database.PragmaOptions) {
      asked.push(source);
      return pragma.call(this, source, options);
    };
    const other = deskAt('2027-04-13T08:00:00Z');
    Database.prototype.pragma = pragma;
    other.close();
    expect(asked).toEqual(expect.arrayContaining(['journal_mode = WAL', 'synchronous = FULL']));
    expect(asked.lastIndexOf('foreign_keys = ON')).toBeGreaterThan(asked.lastIndexOf('foreign_keys = OFF'));
    const broken = () => bench.desk.store.animals.addLoss(999, { tubId: 999, number: 1, cause: null, at });
    expect(broken).toThrow('FOREIGN KEY');
    const reader = new Database(join(bench.folder, databaseFile), { readonly: true });
    expect(reader.pragma('journal_mode', { simple: true })).toBe('wal');
    reader.close();
  });
});
