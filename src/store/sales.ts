import type { Database } from 'better-sqlite3';
import type { Instant, LocalDay, Logged } from '../domain/index.ts';
import type { Freshness } from './freshness.ts';
import { type LoggedRow, liveFacts, loggedOf } from './logged.ts';
import { saleItems } from './saleItems.ts';
import { type BookedSale, type SaleRow, type SaleVersion, saleOf, saleRows } from './saleRows.ts';
import { untilWritten } from './untilWritten.ts';
import { currentVersions } from './versions.ts';

export type { BookedSale, SaleVersion } from './saleRows.ts';

/** Money that came in for a sale. */
export interface Payment extends Logged {
  readonly saleId: number;
  readonly amountMinor: number;
}

/** A buyer's id and name. */
interface Buyer {
  readonly id: number;
  readonly name: string;
}

interface PaymentRow extends LoggedRow {
  sale_id: number;
  amount_minor: number;
}

const currentSale = currentVersions('sale');

/** Sales with their versions, items, payments and buyers. */
export function saleStore(db: Database, fresh: Freshness) {
  const all = db.prepare<[], SaleRow>(`${saleRows} ORDER BY v.sale_id`);
  const one = db.prepare<[number], SaleRow>(`${saleRows} AND v.sale_id = ?`);
  const open = db.prepare<[], SaleRow>(
    `${saleRows} AND v.cancelled_at IS NULL AND p.id IS NULL ORDER BY v.dispatch_on, v.sale_id`,
  );
  const onTheWay = db.prepare<{ since: Instant }, SaleRow>(
    `${saleRows} AND v.sale_id IN (SELECT sale_id FROM parcel WHERE at >= @since) AND a.id IS NULL AND p.at >= @since ORDER BY p.at, v.sale_id`,
  );
  const onDay = db.prepare<[LocalDay], SaleRow>(
    `${saleRows} AND v.cancelled_at IS NULL AND v.dispatch_on = ? ORDER BY v.sale_id`,
  );
  const ofBuyer = db.prepare<[number], SaleRow>(`${saleRows} AND v.buyer_id = ? ORDER BY v.sale_id`);
  const claimed = db.prepare<[], SaleRow>(
    `${saleRows} AND v.sale_id IN (SELECT sale_id FROM claim) AND c.id IS NOT NULL AND t.id IS NULL ORDER BY c.at`,
  );
  const insert = db.prepare<[number, Instant]>('INSERT INTO sale (entry_id, added_at) VALUES (?, ?)');
  const next = db.prepare<[], { number: number }>('SELECT coalesce(max(id), 0) + 1 AS number FROM sale');
  const insertVersion = db.prepare(`
    INSERT INTO sale_version (entry_id, sale_id, buyer_id, area, region, dispatch_on, price_minor, postage_minor, outlet_id,
      kept_until, cancelled_at, cancelled_reason)
    VALUES (@entryId, @saleId, @buyerId, @area, @region, @dispatchOn, @priceMinor, @postageMinor, @outletId,
      @keptUntil, @cancelledAt, @cancelledReason)`);
  const insertItem = db.prepare(`
    INSERT INTO sale_item (sale_version_id, line_id, goods_id, number, extras, price_minor)
    VALUES (@versionId, @lineId, @goodsId, @number, @extras, @priceMinor)`);
  const insertPayment = db.prepare(
    'INSERT INTO payment (entry_id, sale_id, amount_minor, at) VALUES (@entryId, @saleId, @amountMinor, @at)',
  );
  const payments = db.prepare<[number], PaymentRow>(`${liveFacts('payment')} WHERE f.sale_id = ? ORDER BY f.at, f.id`);
  const paidBetween = db.prepare<[Instant, Instant], { total: number }>(`
    SELECT coalesce(sum(y.amount_minor), 0) AS total FROM payment y JOIN live_entry e ON e.id = y.entry_id
    WHERE y.at >= ? AND y.at < ?`);
  const insertBuyer = db.prepare<[number, string]>('INSERT INTO buyer (entry_id, name) VALUES (?, ?)');
  const buyers = db.prepare<[], Buyer>('SELECT id, name FROM buyer WHERE forgotten_at IS NULL ORDER BY id DESC');
  const buying = db.prepare<[], Buyer>(`
    SELECT b.id, b.name FROM buyer b JOIN (${currentSale}) v ON v.buyer_id = b.id
    WHERE b.forgotten_at IS NULL GROUP BY b.id ORDER BY max(v.sale_id) DESC`);
  const areas = db.prepare<[], { area: string }>(`
    SELECT v.area FROM (${currentSale}) v WHERE v.area IS NOT NULL GROUP BY v.area ORDER BY max(v.sale_id) DESC`);
  const lastPlace = db.prepare<[number], { area: string | null; region: string | null }>(
    `SELECT v.area, v.region FROM (${currentSale}) v WHERE v.buyer_id = ? ORDER BY v.id DESC LIMIT 1`,
  );
  const resend = db.prepare<[number], { id: number }>(`
    SELECT r.resend_sale_id AS id FROM claim c
    JOIN claim_settlement r ON r.claim_id = c.id JOIN live_entry e ON e.id = r.entry_id
    WHERE c.sale_id = ? AND r.resend_sale_id IS NOT NULL ORDER BY r.id DESC LIMIT 1`);
  const sold = db.prepare<[Instant, Instant], { number: number }>(`
    SELECT count(*) AS number FROM sale s JOIN (${currentSale}) v ON v.sale_id = s.id
    WHERE s.added_at >= ? AND s.added_at < ? AND v.cancelled_at IS NULL AND NOT EXISTS
      (SELECT 1 FROM claim_settlement r JOIN live_entry e ON e.id = r.entry_id WHERE r.resend_sale_id = s.id)`);

  const itemsOf = saleItems(db);
  const booked = (row: SaleRow): BookedSale => saleOf(row, itemsOf(row.version_id));
  const addVersion = (entryId: number, saleId: number, { cancelled, items: rows, ...version }: SaleVersion): void => {
    const versionId = insertVersion.run({
      ...version,
      entryId,
      saleId,
      cancelledAt: cancelled?.at ?? null,
      cancelledReason: cancelled?.reason ?? null,
    }).lastInsertRowid;
    for (const { of, id, number, extras, priceMinor } of rows) {
      const [lineId, goodsId] = of === 'line' ? [id, null] : [null, id];
      insertItem.run({ versionId, lineId, goodsId, number, extras, priceMinor });
    }
  };

  return {
    /** Every sale that is not undone, cancelled ones included, by number. */
    all: (): BookedSale[] => all.all().map(booked),
    get: (id: number): BookedSale | undefined => {
      const row = one.get(id);
      return row === undefined ? undefined : booked(row);
    },
    /** Neither sent nor cancelled (lapsed ones included), by dispatch day. */
    open: untilWritten(fresh, (): readonly BookedSale[] => open.all().map(booked)),
    /** Sent since an instant, and nobody has said how they arrived; the first sent first. */
    onTheWay: (since: Instant): BookedSale[] => onTheWay.all({ since }).map(booked),
    /** Planned for a day and not cancelled, sent ones included. */
    on: (day: LocalDay): BookedSale[] => onDay.all(day).map(booked),
    /** All of a buyer that are not undone, by number. */
    ofBuyer: (buyerId: number): BookedSale[] => ofBuyer.all(buyerId).map(booked),
    /** With a claim that nobody has answered, oldest first. */
    claimed: (): BookedSale[] => claimed.all().map(booked),
    /** The number that the next sale gets; true only inside the transaction that writes it. */
    nextNumber: (): number => next.get()?.number ?? 1,
    /** Writes a new sale; its number. */
    add: (entryId: number, version: SaleVersion, at: Instant): number => {
      const id = Number(insert.run(entryId, at).lastInsertRowid);
      addVersion(entryId, id, version);
      return id;
    },
    /** Writes what a sale is from now on. */
    edit: addVersion,
    addPayment: (entryId: number, payment: Pick<Payment, 'saleId' | 'amountMinor' | 'at'>): void => {
      insertPayment.run({ ...payment, entryId });
    },
    /** Payments for a sale, oldest first. */
    payments: (saleId: number): Payment[] =>
      payments.all(saleId).map((row) => ({ ...loggedOf(row), saleId: row.sale_id, amountMinor: row.amount_minor })),
    /** Sum of the payments from one instant up to another, minor units. */
    paidBetween: (from: Instant, to: Instant): number => paidBetween.get(from, to)?.total ?? 0,
    addBuyer: (entryId: number, name: string): number => Number(insertBuyer.run(entryId, name).lastInsertRowid),
    /** Buyers that are not forgotten, newest first; also one whose only sale was undone. */
    buyers: (): Buyer[] => buyers.all(),
    /** Names of those who have a sale, the one with the newest first. */
    buyerNames: (): string[] => buying.all().map(({ name }) => name),
    /** Where parcels of sales go, that of the newest first. */
    areas: (): string[] => areas.all().map(({ area }) => area),
    /** Where a buyer's last parcel goes; undefined for one without a sale. */
    lastPlace: (buyerId: number): { area: string | null; region: string | null } | undefined => lastPlace.get(buyerId),
    /** Number of the sale that sends again what a claim on this one is about; undefined: none. */
    resendOf: (saleId: number): number | undefined => resend.get(saleId)?.id,
    /** How many were added from one instant up to another and not cancelled since; what is sent again is no sale. */
    soldBetween: (from: Instant, to: Instant): number => sold.get(from, to)?.number ?? 0,
  };
}
