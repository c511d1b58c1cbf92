import type { Database } from 'better-sqlite3';
import type { Goods, Instant } from '../domain/index.ts';
import { currentName, isCurrent } from './versions.ts';

interface GoodsRow {
  goods_id: number;
  name: string;
  price_minor: number | null;
  line_id: number | null;
  line_name: string | null;
  keep_at_least: number;
  stock: number;
}

const current = `
  SELECT v.*,
    ${currentName('line', 'v.line_id')} AS line_name,
    (SELECT coalesce(sum(k.number), 0) FROM goods_stock k JOIN live_entry ke ON ke.id = k.entry_id WHERE k.goods_id = v.goods_id) AS stock
  FROM goods_version v
  WHERE ${isCurrent('goods')}
  ORDER BY v.name`;

/** Moss, leaves, boxes, bags: what they are, and how many there are as the sum of what came and went. */
export function goodsStore(db: Database) {
  const goods = db.prepare<[], GoodsRow>(current);
  const added = db.prepare<[number], { at: Instant; number: number }>(`
    SELECT k.at, k.number FROM goods_stock k JOIN live_entry ke ON ke.id = k.entry_id
    WHERE k.goods_id = ? AND k.number > 0 ORDER BY k.at, k.id`);
  const insert = db.prepare<[number]>('INSERT INTO goods (entry_id) VALUES (?)');
  const insertVersion = db.prepare(`
    INSERT INTO goods_version (entry_id, goods_id, name, price_minor, line_id, keep_at_least)
    VALUES (@entryId, @id, @name, @priceMinor, @lineId, @keepAtLeast)`);
  const insertStock = db.prepare('INSERT INTO goods_stock (entry_id, goods_id, at, number) VALUES (?, ?, ?, ?)');

  return {
    goods: (): Goods[] =>
      goods.all().map((row) => ({
        id: row.goods_id,
        name: row.name,
        priceMinor: row.price_minor,
        stock: row.stock,
        lineId: row.line_id,
        lineName: row.line_name,
        keepAtLeast: row.keep_at_least,
      })),
    /** Pieces that came in, the oldest first. */
    added: (goodsId: number): { at: Instant; number: number }[] => added.all(goodsId),
    addGoods: (entryId: number, added: Omit<Goods, 'id' | 'stock' | 'lineName'>): number => {
      const id = Number(insert.run(entryId).lastInsertRowid);
      insertVersion.run({ ...added, id, entryId });
      return id;
    },
    editGoods: (entryId: number, edited: Omit<Goods, 'stock' | 'lineName'>): void => {
      insertVersion.run({ ...edited, entryId });
    },
    /** Books pieces in (positive) or out (negative). */
    addStock: (entryId: number, goodsId: number, at: Instant, number: number): void => {
      insertStock.run(entryId, goodsId, at, number);
    },
  };
}
