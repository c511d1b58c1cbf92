import type { Database } from 'better-sqlite3';
import type { Instant, StockStep } from '../domain/index.ts';
import { currentVersions } from './versions.ts';

/** A sale reserves its items while it is not cancelled, not sent, and paid or still kept. */
const reserving = `
  SELECT v.* FROM (${currentVersions('sale')}) v
  WHERE v.cancelled_at IS NULL
    AND NOT EXISTS (SELECT 1 FROM parcel p JOIN live_entry pe ON pe.id = p.entry_id WHERE p.sale_id = v.sale_id)
    AND (v.kept_until > @now
      OR EXISTS (SELECT 1 FROM payment y JOIN live_entry ye ON ye.id = y.entry_id WHERE y.sale_id = v.sale_id))`;

/** What is promised and what has left: the other side of the stock. */
export function promiseStore(db: Database) {
  const promisedLine = db.prepare<{ id: number; now: Instant; except: number }, { number: number; extras: number }>(`
    SELECT coalesce(sum(i.number), 0) AS number, coalesce(sum(i.extras), 0) AS extras
    FROM (${reserving}) v JOIN sale_item i ON i.sale_version_id = v.id
    WHERE i.line_id = @id AND v.sale_id <> @except`);
  const promisedGoods = db.prepare<{ id: number; now: Instant; except: number }, { number: number }>(`
    SELECT coalesce(sum(i.number), 0) AS number
    FROM (${reserving}) v JOIN sale_item i ON i.sale_version_id = v.id
    WHERE i.goods_id = @id AND v.sale_id <> @except`);
  const sent = db.prepare<[number, Instant], StockStep>(`
    SELECT p.at, p.entry_id AS entryId, c.number
    FROM parcel_catch c JOIN parcel p ON p.id = c.parcel_id JOIN live_entry e ON e.id = p.entry_id
    WHERE c.tub_id = ? AND p.at >= ?`);

  return {
    /** Animals of a line that open sales reserve, and the extras with them; a sale being edited leaves itself out. */
    ofLine: (lineId: number, now: Instant, exceptSale = 0): { number: number; extras: number } =>
      promisedLine.get({ id: lineId, now, except: exceptSale }) ?? { number: 0, extras: 0 },
    ofGoods: (goodsId: number, now: Instant, exceptSale = 0): number =>
      promisedGoods.get({ id: goodsId, now, except: exceptSale })?.number ?? 0,
    /** Animals that left a tub in parcels since an instant. */
    sentSince: (tubId: number, since: Instant): StockStep[] => sent.all(tubId, since),
  };
}
