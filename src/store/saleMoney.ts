import type { Database } from 'better-sqlite3';
import type { Instant, MoneySale } from '../domain/index.ts';
import { saleItems } from './saleItems.ts';
import { currentVersions } from './versions.ts';

interface MoneyRow {
  version_id: number;
  sale_id: number;
  price_minor: number | null;
  postage_minor: number;
  cancelled_at: Instant | null;
  percent: number | null;
  fixed_minor: number;
  on_postage: number;
  sent_at: Instant | null;
  refund_minor: number | null;
  refund_at: Instant;
}

/** Sales that anything of money, or a parcel, moved of from one instant up to another. */
const moved = `
  SELECT y.sale_id FROM payment y JOIN live_entry e ON e.id = y.entry_id WHERE y.at >= @from AND y.at < @to
  UNION SELECT v.sale_id FROM sale_version v WHERE v.cancelled_at >= @from AND v.cancelled_at < @to
  UNION SELECT p.sale_id FROM parcel p JOIN live_entry e ON e.id = p.entry_id WHERE p.at >= @from AND p.at < @to
  UNION SELECT c.sale_id FROM claim_settlement r JOIN claim c ON c.id = r.claim_id WHERE r.at >= @from AND r.at < @to`;

/** The fees of a sale's outlet as they were when it was booked. */
const feesThen = `
  (SELECT max(x.id) FROM outlet_version x JOIN live_entry xe ON xe.id = x.entry_id
    WHERE x.outlet_id = v.outlet_id AND xe.logged_at <= s.added_at)`;

const moneySales = `
  SELECT v.id AS version_id, v.sale_id, v.price_minor, v.postage_minor, v.cancelled_at, o.percent, o.fixed_minor, o.on_postage,
    (SELECT min(p.at) FROM parcel p JOIN live_entry pe ON pe.id = p.entry_id WHERE p.sale_id = v.sale_id) AS sent_at,
    r.amount_minor AS refund_minor, r.at AS refund_at
  FROM (${moved}) m
  JOIN (${currentVersions('sale')}) v ON v.sale_id = m.sale_id
  JOIN sale s ON s.id = v.sale_id
  LEFT JOIN outlet_version o ON o.id = ${feesThen}
  LEFT JOIN claim_settlement r ON r.how = 'refund' AND r.id = (
    SELECT max(t.id) FROM claim_settlement t JOIN live_entry te ON te.id = t.entry_id
      JOIN claim c ON c.id = t.claim_id JOIN live_entry ce ON ce.id = c.entry_id
    WHERE c.sale_id = v.sale_id)
  ORDER BY v.sale_id`;

/** What sales moved of money, read for the books. */
export function saleMoneyStore(db: Database) {
  const sales = db.prepare<{ from: Instant; to: Instant }, MoneyRow>(moneySales);
  const payments = db.prepare<[number], { amountMinor: number; at: Instant }>(`
    SELECT y.amount_minor AS amountMinor, y.at FROM payment y JOIN live_entry e ON e.id = y.entry_id
    WHERE y.sale_id = ? ORDER BY y.at, y.id`);
  const itemsOf = saleItems(db);
  const first = db.prepare<[], { at: Instant | null }>(`
    SELECT min(f.at) AS at FROM (SELECT entry_id, at FROM payment UNION ALL SELECT entry_id, at FROM cost) f
    JOIN live_entry e ON e.id = f.entry_id`);

  return {
    /** Sales of which anything moved from one instant up to another, whole: with all that was paid before and after too. */
    moved: (from: Instant, to: Instant): MoneySale[] =>
      sales.all({ from, to }).map((row) => ({
        id: row.sale_id,
        items: itemsOf(row.version_id),
        priceMinor: row.price_minor,
        postageMinor: row.postage_minor,
        fees:
          row.percent === null
            ? null
            : { percent: row.percent, fixedMinor: row.fixed_minor, onPostage: row.on_postage === 1 },
        payments: payments.all(row.sale_id),
        refund: row.refund_minor === null ? null : { amountMinor: row.refund_minor, at: row.refund_at },
        sentAt: row.sent_at,
        cancelledAt: row.cancelled_at,
      })),
    /** When the first money came or went; undefined: none did. */
    firstAt: (): Instant | undefined => first.get()?.at ?? undefined,
  };
}
