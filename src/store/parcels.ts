import type { Database } from 'better-sqlite3';
import type { Arrival, Catch, Claim, Instant, Parcel, Settlement } from '../domain/index.ts';
import type { Freshness } from './freshness.ts';
import { type LoggedRow, loggedOf } from './logged.ts';
import { untilWritten } from './untilWritten.ts';
import { currentName } from './versions.ts';

interface ParcelRow extends LoggedRow {
  sale_id: number;
  tracking: string | null;
}

/** Parcels, how they arrived, and the claims on them. */
export function parcelStore(db: Database, fresh: Freshness) {
  const insertParcel = db.prepare<[number, number, string | null, Instant]>(
    'INSERT INTO parcel (entry_id, sale_id, tracking, at) VALUES (?, ?, ?, ?)',
  );
  const insertCatch = db.prepare('INSERT INTO parcel_catch (parcel_id, tub_id, line_id, number) VALUES (?, ?, ?, ?)');
  const insertTracking = db.prepare('INSERT INTO parcel_tracking (entry_id, parcel_id, tracking) VALUES (?, ?, ?)');
  const parcels = db.prepare<[number], ParcelRow>(`
    SELECT p.id, p.entry_id, p.sale_id, p.at, e.user_name, e.logged_at,
      coalesce((SELECT k.tracking FROM parcel_tracking k JOIN live_entry ke ON ke.id = k.entry_id
        WHERE k.parcel_id = p.id ORDER BY k.id DESC LIMIT 1), p.tracking) AS tracking
    FROM parcel p JOIN live_entry e ON e.id = p.entry_id WHERE p.sale_id = ? ORDER BY p.at, p.id`);
  const catches = db.prepare<[number], Catch>(
    'SELECT tub_id AS tubId, line_id AS lineId, number FROM parcel_catch WHERE parcel_id = ? ORDER BY id',
  );
  const sentBetween = db.prepare<[Instant, Instant], { parcels: number; animals: number }>(`
    SELECT count(DISTINCT p.id) AS parcels, coalesce(sum(c.number), 0) AS animals
    FROM parcel p JOIN live_entry e ON e.id = p.entry_id LEFT JOIN parcel_catch c ON c.parcel_id = p.id
    WHERE p.at >= ? AND p.at < ?`);
  const sentByLine = db.prepare<[Instant, Instant], { line: string; number: number }>(`
    SELECT ${currentName('line', 'c.line_id')} AS line, sum(c.number) AS number
    FROM parcel_catch c JOIN parcel p ON p.id = c.parcel_id JOIN live_entry e ON e.id = p.entry_id
    WHERE p.at >= ? AND p.at < ? GROUP BY c.line_id ORDER BY c.line_id`);
  const sentOf = db.prepare<[number, Instant], { number: number }>(`
    SELECT coalesce(sum(c.number), 0) AS number
    FROM parcel_catch c JOIN parcel p ON p.id = c.parcel_id JOIN live_entry e ON e.id = p.entry_id
    WHERE c.line_id = ? AND p.at >= ?`);
  const record = db.prepare<[], { sent: number; dead: number; parcels: number }>(`
    SELECT coalesce(sum(f.sent), 0) AS sent, coalesce(sum(min(f.dead, f.sent)), 0) AS dead, count(*) AS parcels FROM (
      SELECT max(a.dead, coalesce((SELECT c.dead FROM claim c JOIN live_entry ce ON ce.id = c.entry_id
          WHERE c.sale_id = a.sale_id ORDER BY c.id DESC LIMIT 1), 0)) AS dead,
        (SELECT coalesce(sum(k.number), 0) FROM parcel_catch k WHERE k.parcel_id =
          (SELECT max(p.id) FROM parcel p JOIN live_entry pe ON pe.id = p.entry_id WHERE p.sale_id = a.sale_id)) AS sent
      FROM arrival a WHERE a.id = (SELECT max(x.id) FROM arrival x JOIN live_entry xe ON xe.id = x.entry_id WHERE x.sale_id = a.sale_id)
    ) f WHERE f.sent > 0`);
  const insertArrival = db.prepare(`
    INSERT INTO arrival (entry_id, sale_id, delivered_at, dead, photo) VALUES (@entryId, @saleId, @deliveredAt, @dead, @photo)`);
  const insertClaim = db.prepare(`
    INSERT INTO claim (entry_id, sale_id, at, dead, photo, note) VALUES (@entryId, @saleId, @at, @dead, @photo, @note)`);
  const insertSettlement = db.prepare(`
    INSERT INTO claim_settlement (entry_id, claim_id, how, amount_minor, resend_sale_id, at)
    VALUES (@entryId, @claimId, @how, @amountMinor, @resendSaleId, @at)`);

  return {
    /** Writes a parcel with the animals in it; its id. */
    addParcel: (
      entryId: number,
      parcel: Pick<Parcel, 'saleId' | 'tracking' | 'at'> & { readonly catches: readonly Catch[] },
    ): number => {
      const id = Number(insertParcel.run(entryId, parcel.saleId, parcel.tracking, parcel.at).lastInsertRowid);
      for (const { tubId, lineId, number } of parcel.catches) {
        insertCatch.run(id, tubId, lineId, number);
        fresh.note('animals', tubId);
      }
      return id;
    },
    /** Gives a parcel a tracking number afterwards. */
    setTracking: (entryId: number, parcelId: number, tracking: string): void => {
      insertTracking.run(entryId, parcelId, tracking);
    },
    /** Parcels of a sale, oldest first. */
    parcels: (saleId: number): Parcel[] =>
      parcels.all(saleId).map((row) => ({
        ...loggedOf(row),
        saleId: row.sale_id,
        tracking: row.tracking,
        catches: catches.all(row.id),
      })),
    /** Parcels sent from one instant up to another, and the animals in them by line. */
    sentBetween: (
      from: Instant,
      to: Instant,
    ): { parcels: number; animals: number; lines: { line: string; number: number }[] } => ({
      ...(sentBetween.get(from, to) ?? { parcels: 0, animals: 0 }),
      lines: sentByLine.all(from, to),
    }),
    /** Animals of a line sent since an instant, extras included. */
    sentOf: (lineId: number, since: Instant): number => sentOf.get(lineId, since)?.number ?? 0,
    /** Over all parcels with a known arrival: animals sent, dead among them, and how many parcels. */
    arrivalRecord: untilWritten(fresh, () => record.get() ?? { sent: 0, dead: 0, parcels: 0 }),
    addArrival: (entryId: number, arrival: Pick<Arrival, 'saleId' | 'deliveredAt' | 'dead' | 'photo'>): void => {
      insertArrival.run({ ...arrival, entryId });
    },
    /** Writes a claim; its id. */
    addClaim: (entryId: number, claim: Pick<Claim, 'saleId' | 'at' | 'dead' | 'photo' | 'note'>): number =>
      Number(insertClaim.run({ ...claim, entryId }).lastInsertRowid),
    addSettlement: (
      entryId: number,
      settlement: {
        readonly claimId: number;
        readonly how: Settlement;
        readonly amountMinor: number;
        readonly resendSaleId: number | null;
        readonly at: Instant;
      },
    ): void => {
      insertSettlement.run({ ...settlement, entryId });
    },
  };
}
