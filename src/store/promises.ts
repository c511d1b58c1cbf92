import type { Database } from 'better-sqlite3';
import type { Instant, StockStep } from '../domain/index.ts';
import type { Freshness } from './freshness.ts';
import { untilWritten } from './untilWritten.ts';
import { currentVersions } from './versions.ts';

/** An item of a sale that is neither cancelled nor sent. */
interface OpenItem {
  readonly saleId: number;
  readonly lineId: number | null;
  readonly goodsId: number | null;
  readonly number: number;
  readonly extras: number;
  readonly keptUntil: Instant;
  /** 1: something was paid; 0: nothing was. */
  readonly paid: 0 | 1;
}

/** What is promised and what has left: the other side of the stock. */
export function promiseStore(db: Database, fresh: Freshness) {
  const open = db.prepare<[], OpenItem>(`
    SELECT v.sale_id AS saleId, i.line_id AS lineId, i.goods_id AS goodsId, i.number, i.extras, v.kept_until AS keptUntil,
      EXISTS (SELECT 1 FROM payment y JOIN live_entry ye ON ye.id = y.entry_id WHERE y.sale_id = v.sale_id) AS paid
    FROM (${currentVersions('sale')}) v JOIN sale_item i ON i.sale_version_id = v.id
    WHERE v.cancelled_at IS NULL
      AND NOT EXISTS (SELECT 1 FROM parcel p JOIN live_entry pe ON pe.id = p.entry_id WHERE p.sale_id = v.sale_id)`);
  const openItems = untilWritten(fresh, () => open.all());
  /** A sale reserves its items while it is not cancelled, not sent, and paid or still kept. */
  const reserved = (now: Instant, exceptSale: number): OpenItem[] =>
    openItems().filter(({ saleId, keptUntil, paid }) => saleId !== exceptSale && (paid === 1 || keptUntil > now));
  const sent = db.prepare<[number, Instant], StockStep>(`
    SELECT p.at, p.entry_id AS entryId, c.number
    FROM parcel_catch c JOIN parcel p ON p.id = c.parcel_id JOIN live_entry e ON e.id = p.entry_id
    WHERE c.tub_id = ? AND p.at >= ?`);

  return {
    /** Animals of a line that open sales reserve, and the extras with them; a sale being edited leaves itself out. */
    ofLine: (lineId: number, now: Instant, exceptSale = 0): { number: number; extras: number } => {
      const items = reserved(now, exceptSale).filter((item) => item.lineId === lineId);
      return { number: sumOf(items, 'number'), extras: sumOf(items, 'extras') };
    },
    ofGoods: (goodsId: number, now: Instant, exceptSale = 0): number =>
      sumOf(
        reserved(now, exceptSale).filter((item) => item.goodsId === goodsId),
        'number',
      ),
    /** Animals that left a tub in parcels since an instant. */
    sentSince: (tubId: number, since: Instant): StockStep[] => sent.all(tubId, since),
  };
}

const sumOf = (items: readonly OpenItem[], what: 'number' | 'extras'): number =>
  items.reduce((sum, item) => sum + item[what], 0);
