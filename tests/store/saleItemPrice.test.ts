import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { migrate, migrations } from '../../src/store/migrate.ts';

/** A database of the first schema in memory, and a way to write rows into it. */
function oldBooks() {
  const db = new Database(':memory:');
  migrate(db, migrations.slice(0, 1));
  const insert = (table: string, row: Record<string, unknown>): number => {
    const names = Object.keys(row);
    const marks = names.map((name) => `@${name}`).join(', ');
    return Number(db.prepare(`INSERT INTO ${table} (${names.join(', ')}) VALUES (${marks})`).run(row).lastInsertRowid);
  };
  let minutes = 0;
  const at = (): string => `2026-03-01T08:${String(minutes).padStart(2, '0')}:00.000Z`;
  const entry = (kind: string): number => {
    minutes += 1;
    const who = { user_id: '1', user_name: 'wren', logged_at: at() };
    return insert('entry', { key: `k${minutes}`, kind, summary: kind, ...who });
  };
  return {
    db,
    insert,
    entry,
    undo: (id: number): void => {
      minutes += 1;
      const mark = "UPDATE entry SET voided_at = ?, voided_by_id = '1', voided_by = 'wren' WHERE id = ?";
      db.prepare(mark).run(at(), id);
    },
    line: (): number => insert('line', { entry_id: entry('line') }),
    linePrice: (line_id: number, price_minor: number | null): number => {
      const entry_id = entry('line');
      insert('line_version', { entry_id, line_id, name: 'jade', price_minor, saleable_mm: 15, hold_back: 0 });
      return entry_id;
    },
    goodsPrice: (goods_id: number, price_minor: number): void => {
      const row = { entry_id: entry('goods'), goods_id, name: 'moss', price_minor, keep_at_least: 0 };
      insert('goods_version', row);
    },
    /** Writes a version of a sale with its items; undefined sale: a new one. */
    sold: (sale: number | undefined, items: readonly Record<string, number>[]): number => {
      const entry_id = entry('sale');
      const sale_id = sale ?? insert('sale', { entry_id, added_at: at() });
      const version = insert('sale_version', { entry_id, sale_id, postage_minor: 0, kept_until: at() });
      for (const item of items) insert('sale_item', { sale_version_id: version, number: 5, extras: 0, ...item });
      return sale_id;
    },
    prices: (): unknown[] => db.prepare('SELECT price_minor FROM sale_item ORDER BY id').pluck().all(),
  };
}

it('gives items of older sales what the list said when the sale first held them', () => {
  const books = oldBooks();
  const jade = books.line();
  const moss = books.insert('goods', { entry_id: books.entry('goods') });
  books.linePrice(jade, null);
  books.goodsPrice(moss, 400);
  const first = books.sold(undefined, [{ line_id: jade }]);
  books.linePrice(jade, 200);
  const second = books.sold(undefined, [{ line_id: jade }, { goods_id: moss }]);
  const slip = books.linePrice(jade, 20_000);
  books.undo(slip);
  books.sold(undefined, [{ line_id: jade }]);
  books.linePrice(jade, 300);
  books.goodsPrice(moss, 500);
  books.sold(second, [{ line_id: jade }, { goods_id: moss }]);
  books.sold(first, [{ line_id: jade }, { goods_id: moss }]);
  migrate(books.db);
  expect(books.prices()).toEqual([null, 200, 400, 200, 200, 400, null, 500]);
  expect(books.db.pragma('user_version', { simple: true })).toBe(migrations.length);
  books.db.close();
});

it('takes a price for what it was at that moment, though it was undone later', () => {
  const books = oldBooks();
  const jade = books.line();
  books.linePrice(jade, 200);
  const wrong = books.linePrice(jade, 250);
  books.sold(undefined, [{ line_id: jade }]);
  books.undo(wrong);
  migrate(books.db);
  expect(books.prices()).toEqual([250]);
  books.db.close();
});

it('leaves nothing but the new column different', () => {
  const books = oldBooks();
  const jade = books.line();
  books.linePrice(jade, 200);
  books.sold(undefined, [{ line_id: jade }]);
  const rest = 'SELECT id, sale_version_id, line_id, goods_id, number, extras FROM sale_item';
  const before = books.db.prepare(rest).all();
  migrate(books.db);
  expect(books.db.prepare(rest).all()).toEqual(before);
  expect(() => books.db.exec('UPDATE sale_item SET price_minor = -1')).toThrow(/CHECK/);
  books.db.close();
});
