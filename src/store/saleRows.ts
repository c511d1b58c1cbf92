import type { Instant, LocalDay, Sale, SaleItem, Settlement } from '../domain/index.ts';
import { currentVersions } from './versions.ts';

/** A sale as it stands, with what later versions of it need. */
export interface BookedSale extends Sale {
  readonly buyerId: number | null;
  readonly outletId: number | null;
}

/** What a version of a sale says: everything about it that people can edit. */
export interface SaleVersion {
  readonly buyerId: number | null;
  readonly area: string | null;
  readonly region: string | null;
  readonly dispatchOn: LocalDay | null;
  readonly priceMinor: number | null;
  readonly postageMinor: number;
  readonly outletId: number | null;
  readonly keptUntil: Instant;
  readonly cancelled: { readonly at: Instant; readonly reason: string } | null;
  readonly items: readonly Pick<SaleItem, 'of' | 'id' | 'number' | 'extras' | 'priceMinor'>[];
}

export interface SaleRow {
  version_id: number;
  sale_id: number;
  entry_id: number;
  added_at: Instant;
  user_name: string;
  buyer_id: number | null;
  buyer: string | null;
  area: string | null;
  region: string | null;
  dispatch_on: LocalDay | null;
  price_minor: number | null;
  postage_minor: number;
  outlet_id: number | null;
  outlet: string | null;
  kept_until: Instant;
  cancelled_at: Instant | null;
  cancelled_reason: string | null;
  paid_minor: number;
  paid_at: Instant | null;
  sent_at: Instant | null;
  tracking: string | null;
  arrival_id: number | null;
  arrival_entry_id: number;
  arrival_at: Instant;
  arrival_dead: number;
  arrival_photo: string | null;
  arrival_by: string;
  arrival_logged_at: Instant;
  claim_id: number | null;
  claim_entry_id: number;
  claim_at: Instant;
  claim_dead: number;
  claim_photo: string | null;
  claim_note: string | null;
  claim_by: string;
  claim_logged_at: Instant;
  settled_how: Settlement | null;
  settled_minor: number;
  settled_at: Instant;
  settled_by: string;
}

const latest = (table: string, of: string): string =>
  `(SELECT max(x.id) FROM ${table} x JOIN live_entry xe ON xe.id = x.entry_id WHERE x.${of})`;

/** Every sale that is not undone, as it stands; further conditions can follow with AND. */
export const saleRows = `
  SELECT v.id AS version_id, v.sale_id, s.entry_id, s.added_at, e.user_name, v.buyer_id, b.name AS buyer, v.area, v.region,
    v.dispatch_on, v.price_minor, v.postage_minor, v.outlet_id, o.name AS outlet, v.kept_until, v.cancelled_at, v.cancelled_reason,
    (SELECT coalesce(sum(y.amount_minor), 0) FROM payment y JOIN live_entry ye ON ye.id = y.entry_id WHERE y.sale_id = v.sale_id) AS paid_minor,
    (SELECT min(y.at) FROM payment y JOIN live_entry ye ON ye.id = y.entry_id WHERE y.sale_id = v.sale_id) AS paid_at,
    p.at AS sent_at, coalesce(k.tracking, p.tracking) AS tracking,
    a.id AS arrival_id, a.entry_id AS arrival_entry_id, a.delivered_at AS arrival_at, a.dead AS arrival_dead, a.photo AS arrival_photo,
    ae.user_name AS arrival_by, ae.logged_at AS arrival_logged_at,
    c.id AS claim_id, c.entry_id AS claim_entry_id, c.at AS claim_at, c.dead AS claim_dead, c.photo AS claim_photo, c.note AS claim_note,
    ce.user_name AS claim_by, ce.logged_at AS claim_logged_at,
    t.how AS settled_how, t.amount_minor AS settled_minor, t.at AS settled_at, te.user_name AS settled_by
  FROM (${currentVersions('sale')}) v
  JOIN sale s ON s.id = v.sale_id
  JOIN entry e ON e.id = s.entry_id
  LEFT JOIN buyer b ON b.id = v.buyer_id AND b.forgotten_at IS NULL
  LEFT JOIN (${currentVersions('outlet')}) o ON o.outlet_id = v.outlet_id
  LEFT JOIN parcel p ON p.id = ${latest('parcel', 'sale_id = v.sale_id')}
  LEFT JOIN parcel_tracking k ON k.id = ${latest('parcel_tracking', 'parcel_id = p.id')}
  LEFT JOIN arrival a ON a.id = ${latest('arrival', 'sale_id = v.sale_id')}
  LEFT JOIN entry ae ON ae.id = a.entry_id
  LEFT JOIN claim c ON c.id = ${latest('claim', 'sale_id = v.sale_id')}
  LEFT JOIN entry ce ON ce.id = c.entry_id
  LEFT JOIN claim_settlement t ON t.id = ${latest('claim_settlement', 'claim_id = c.id')}
  LEFT JOIN entry te ON te.id = t.entry_id
  WHERE 1 = 1`;

export function saleOf(row: SaleRow, items: readonly SaleItem[]): BookedSale {
  return {
    id: row.sale_id,
    entryId: row.entry_id,
    buyer: row.buyer,
    buyerId: row.buyer_id,
    area: row.area,
    region: row.region,
    items,
    dispatchOn: row.dispatch_on,
    priceMinor: row.price_minor,
    postageMinor: row.postage_minor,
    outlet: row.outlet,
    outletId: row.outlet_id,
    keptUntil: row.kept_until,
    paidMinor: row.paid_minor,
    paidAt: row.paid_at,
    sentAt: row.sent_at,
    tracking: row.tracking,
    arrival: arrivalOf(row),
    claim: claimOf(row),
    cancelled: row.cancelled_at === null ? null : { at: row.cancelled_at, reason: row.cancelled_reason ?? '' },
    by: row.user_name,
    addedAt: row.added_at,
  };
}

function arrivalOf(row: SaleRow): Sale['arrival'] {
  if (row.arrival_id === null) return null;
  return {
    id: row.arrival_id,
    entryId: row.arrival_entry_id,
    saleId: row.sale_id,
    at: row.arrival_at,
    deliveredAt: row.arrival_at,
    dead: row.arrival_dead,
    photo: row.arrival_photo,
    by: row.arrival_by,
    loggedAt: row.arrival_logged_at,
  };
}

function claimOf(row: SaleRow): Sale['claim'] {
  if (row.claim_id === null) return null;
  return {
    id: row.claim_id,
    entryId: row.claim_entry_id,
    saleId: row.sale_id,
    at: row.claim_at,
    dead: row.claim_dead,
    photo: row.claim_photo,
    note: row.claim_note,
    by: row.claim_by,
    loggedAt: row.claim_logged_at,
    settled:
      row.settled_how === null
        ? null
        : { how: row.settled_how, amountMinor: row.settled_minor, at: row.settled_at, by: row.settled_by },
  };
}
