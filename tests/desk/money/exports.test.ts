import { readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  type ExportPart,
  exportParts,
  exportTables,
  logChange,
  logCost,
  logLoss,
  logReading,
  paySale,
  setBusiness,
  undo,
} from '../../../src/desk/index.ts';
import { day, type ExportTable } from '../../../src/domain/index.ts';
import { migrate } from '../../../src/store/migrate.ts';
import { rowCounts } from '../../support/rowCounts.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-08T09:00:00Z');
});
afterEach(() => test.close());

type Input = Parameters<typeof exportTables>[1];
const tables = (input: Input = {}): ExportTable[] => taken(exportTables(test.desk, input)).map((read) => read());
/** One table's rows by the names of their columns. */
function rows(name: string, input: Input = {}): Record<string, unknown>[] {
  const table = tables(input).find((each) => each.name === name);
  if (table === undefined) throw new Error(`no table ${name}`);
  return table.rows.map((row) => Object.fromEntries(row.map((cell, index) => [table.columns[index]?.name, cell])));
}
const pay = (id: number) => taken(paySale(test.desk, test.by('wren'), { sale: String(id) }));

/** A sale of the first day and one a month later, each paid. */
function sellTwice(): void {
  pay(test.sell(10, { buyer: 'kestrel', postageMinor: 700 }).id);
  taken(logCost(test.desk, test.by('wren'), { amountMinor: 500, what: 'flakes', kind: 'feed' }));
  test.advance({ days: 31 });
  pay(test.sell(5, { buyer: 'heron' }).id);
}

describe('an export', () => {
  it('has every table, as wide as its columns, and changes nothing', () => {
    sellTwice();
    taken(logReading(test.desk, test.by('wren'), { tub: 'A1', values: { nitrateMgL: 20 } }));
    taken(logChange(test.desk, test.by('wren'), { tub: 'A1', percent: 20 }));
    taken(logLoss(test.desk, test.by('wren'), { tub: 'A1', number: 1 }));
    const before = rowCounts(test.folder);
    const all = tables();
    expect(rowCounts(test.folder)).toEqual(before);
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length);
    for (const { name, columns, rows: own } of all) {
      for (const row of own) expect(row, name).toHaveLength(columns.length);
    }
    const sizes = Object.fromEntries(all.map(({ name, rows: own }) => [name, own.length]));
    expect(sizes).toMatchObject({
      ...{ sales: 2, items: 2, payments: 2, costs: 1, tubs: 3, lines: 2, readings: 1, changes: 1, losses: 1, goods: 1 },
      ...{ months: 2, 'tax-years': 1, partners: 2 },
    });
    expect(sizes['entries']).toBe(before['entry']);
  });

  it('is of what was asked for', () => {
    const namesOf = (what: ExportPart): string[] => tables({ what }).map(({ name }) => name);
    expect(exportParts.flatMap(namesOf).sort()).toEqual(
      tables()
        .map(({ name }) => name)
        .sort(),
    );
    expect([namesOf('sales'), namesOf('holds')]).toEqual([['sales'], ['holds', 'troubles']]);
    // The chat takes 25 choices, and everything is one of them.
    expect(exportParts.length).toBeLessThanOrEqual(24);
  });

  it('holds the rows of its days, by the business’s own days', () => {
    sellTwice();
    const sale = (input: Input) => rows('sales', input).map((row) => row['sale']);
    expect(sale({})).toEqual([1, 2]);
    expect(sale({ to: day('2027-03-31') })).toEqual([1]);
    expect(sale({ from: day('2027-04-01') })).toEqual([2]);
    expect(sale({ from: day('2027-03-08'), to: day('2027-03-08') })).toEqual([1]);
    expect(sale({ from: day('2027-05-01') })).toEqual([]);
    expect(faultOf(exportTables(test.desk, { from: day('2027-04-02'), to: day('2027-04-01') }))).toEqual({
      ...{ kind: 'bad-span', from: '2027-04-02', to: '2027-04-01' },
    });
  });

  it('leaves out what was undone, but for the list of entries', () => {
    sellTwice();
    const entry = test.desk.store.entries.latest(1)[0]?.id ?? 0;
    taken(undo(test.desk, test.by('alder'), true, entry));
    expect(rows('payments')).toHaveLength(1);
    expect(rows('entries').find((row) => row['entry'] === entry)).toMatchObject({ undone_by: 'alder' });
  });

  it('tells settings as they were typed', () => {
    expect(rows('settings')).toContainEqual({ name: 'region', value: 'NL' });
  });
});

describe('the sums of an export', () => {
  beforeEach(sellTwice);

  it('are those of each month, the last up to today', () => {
    expect(rows('months')).toMatchObject([
      {
        ...{ from: '2027-03-08', to: '2027-03-31', takings: 2700, of_animals: 2000, of_postage: 700, cost_feed: 500 },
        ...{ net: 2200, animals_sold: 10 },
      },
      { from: '2027-04-01', to: '2027-04-08', takings: 1000, net: 1000 },
    ]);
  });

  it('add up over the lines of a month to its net', () => {
    const sum = (list: Record<string, unknown>[]): number => list.reduce((total, row) => total + Number(row['net']), 0);
    expect(sum(rows('line-months'))).toBe(sum(rows('months')));
    expect(rows('line-months').map((row) => row['of'])).toEqual([
      ...['line', 'goods', 'postage', 'shared'],
      ...['line', 'goods', 'postage', 'shared'],
    ]);
  });

  it('are those of each tax year, which begins by the region or on the first day that is asked for', () => {
    const years = (input: Input = {}) =>
      rows('tax-years', input).map(({ from, to, complete, net }) => ({ from, to, complete, net }));
    expect(years()).toEqual([{ from: '2027-01-01', to: '2027-12-31', complete: 'no', net: 3200 }]);
    taken(setBusiness(test.desk, test.by('wren'), { region: 'GB' }));
    expect(years()).toEqual([
      { from: '2026-04-06', to: '2027-04-05', complete: 'yes', net: 2200 },
      { from: '2027-04-06', to: '2028-04-05', complete: 'no', net: 1000 },
    ]);
    expect(years({ from: day('2026-07-01') })).toEqual([
      { from: '2026-07-01', to: '2027-06-30', complete: 'no', net: 3200 },
    ]);
  });

  it('are there before any money moved', () => {
    const empty = sellingDeskAt('2027-03-08T09:00:00Z');
    const of = (name: string): ExportTable | undefined =>
      taken(exportTables(empty.desk, {}))
        .map((read) => read())
        .find((table) => table.name === name);
    expect(of('months')?.rows).toHaveLength(1);
    expect(of('tax-years')?.rows).toHaveLength(1);
    empty.close();
  });
});

it('reads every table of the database but those that hold no facts of their own', () => {
  const db = new Database(':memory:');
  migrate(db);
  const all = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all();
  db.close();
  const sql = ['exports', 'saleRows', 'waiting'].map((file) => readFileSync(`src/store/${file}.ts`, 'utf8')).join();
  const read = (table: string): boolean =>
    new RegExp(`\\b${table}\\b`).test(sql) || (table.endsWith('_version') && sql.includes(`'${table.slice(0, -8)}'`));
  // The first start, the ledgers of posts and of what the rota told, and ids whose facts are versions; where a chore was put off or handed over is over when it is done.
  const without = [
    'started',
    'job_run',
    'rota_told',
    'line',
    'goods',
    'outlet',
    'chore',
    'closed_window',
    'chore_later',
    'chore_hand_over',
  ];
  expect(all.filter((table) => !read(table) && !without.includes(table))).toEqual([]);
});
