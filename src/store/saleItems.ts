import type { Database } from 'better-sqlite3';
import type { SaleItem } from '../domain/index.ts';
import { currentName } from './versions.ts';

interface ItemRow {
  line_id: number | null;
  goods_id: number | null;
  name: string;
  number: number;
  extras: number;
  price_minor: number | null;
}

/** Reads the items of a version of a sale, in order, under the names that their lines and goods have now. */
export function saleItems(db: Database): (versionId: number) => SaleItem[] {
  const items = db.prepare<[number], ItemRow>(`
    SELECT i.line_id, i.goods_id, i.number, i.extras, i.price_minor,
      coalesce(${currentName('line', 'i.line_id')}, ${currentName('goods', 'i.goods_id')}, 'gone') AS name
    FROM sale_item i WHERE i.sale_version_id = ? ORDER BY i.id`);
  return (versionId) =>
    items
      .all(versionId)
      .map(({ line_id, goods_id, name, number, extras, price_minor: priceMinor }) =>
        line_id !== null
          ? { of: 'line', id: line_id, name, number, extras, priceMinor }
          : { of: 'goods', id: goods_id ?? 0, name, number, extras: 0, priceMinor },
      );
}
