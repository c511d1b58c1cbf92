import type { Database } from 'better-sqlite3';
import { folded, type Instant, type Person } from '../domain/index.ts';

/** What the books hold of a buyer. */
export interface BuyerTrace {
  readonly name: string;
  /** Under these ids, those of misspelt names that only ever stood in this buyer's orders among them. */
  readonly buyerIds: readonly number[];
  /** Every name of those. */
  readonly names: readonly string[];
  /** Numbers of their sales, undone ones included. */
  readonly sales: readonly number[];
  readonly areas: readonly string[];
  readonly trackings: readonly string[];
  /** File names. */
  readonly photos: readonly string[];
  readonly notes: number;
  /** Entries of the waiting list that hold. */
  readonly waiting: readonly number[];
}

interface VersionRow {
  id: number;
  sale_id: number;
  buyer_id: number | null;
  area: string | null;
  is_live: number;
}

/** Columns in which people write what they like. */
const freeTexts: readonly (readonly [table: string, column: string])[] = [
  ['entry', 'summary'],
  ['reading', 'note'],
  ['water_change', 'note'],
  ['loss', 'cause'],
  ['hold', 'reason'],
  ['trouble', 'changed'],
  ['trouble', 'seen'],
  ['cost', 'what'],
  ['chore_later', 'reason'],
  ['tub_version', 'retired_reason'],
  ['sale_version', 'cancelled_reason'],
  ['claim', 'note'],
  ['weather', 'area'],
];

const erased = 'erased';

/** Erasing a buyer from the books: the one place where facts are overwritten, as the law may ask for it. */
export function saleForgetStore(db: Database) {
  const buyer = db.prepare<[number], { name: string }>('SELECT name FROM buyer WHERE id = ? AND forgotten_at IS NULL');
  const versionsAround = db.prepare<[string], VersionRow>(`
    SELECT v.id, v.sale_id, v.buyer_id, v.area, e.voided_at IS NULL AS is_live
    FROM sale_version v JOIN entry e ON e.id = v.entry_id
    WHERE v.sale_id IN (SELECT o.sale_id FROM sale_version o WHERE o.buyer_id IN (SELECT value FROM json_each(?))) ORDER BY v.id`);
  const inSales = 'IN (SELECT value FROM json_each(@sales))';
  const trackings = db.prepare<{ sales: string }, { tracking: string }>(`
    SELECT tracking FROM parcel WHERE sale_id ${inSales} AND tracking IS NOT NULL
    UNION SELECT k.tracking FROM parcel_tracking k JOIN parcel p ON p.id = k.parcel_id WHERE p.sale_id ${inSales}`);
  const photos = db.prepare<{ sales: string }, { photo: string }>(`
    SELECT photo FROM arrival WHERE sale_id ${inSales} AND photo IS NOT NULL
    UNION SELECT photo FROM claim WHERE sale_id ${inSales} AND photo IS NOT NULL`);
  const notes = db.prepare<{ sales: string }, { number: number }>(
    `SELECT count(*) AS number FROM claim WHERE sale_id ${inSales} AND note IS NOT NULL`,
  );
  const waiting = db.prepare<[string], { entry_id: number }>(`
    SELECT DISTINCT w.entry_id FROM waiting w JOIN live_entry e ON e.id = w.entry_id
    WHERE w.buyer_id IN (SELECT value FROM json_each(?))`);

  const run = (sql: string, params: Readonly<Record<string, unknown>>): void => {
    db.prepare(sql).run(params);
  };

  return {
    /** What the books hold of a buyer; undefined where they hold none of that id, or forgot it. */
    traceOf: (buyerId: number): BuyerTrace | undefined => {
      const name = buyer.get(buyerId)?.name;
      if (name === undefined) return undefined;
      const own = versionsAround.all(JSON.stringify([buyerId]));
      const buyerIds = [buyerId, ...misspelt(buyerId, own, (id) => versionsAround.all(JSON.stringify([id])))];
      const versions = versionsAround.all(JSON.stringify(buyerIds));
      const sales = salesOf(versions, buyerIds);
      const json = { sales: JSON.stringify(sales) };
      return {
        name,
        buyerIds,
        names: buyerIds.flatMap((id) => buyer.get(id)?.name ?? []),
        sales,
        areas: [
          ...new Set(
            versions.flatMap(({ area, buyer_id }) => (area !== null && isOne(buyer_id, buyerIds) ? [area] : [])),
          ),
        ],
        trackings: trackings.all(json).map(({ tracking }) => tracking),
        photos: photos.all(json).map(({ photo }) => photo),
        notes: notes.get(json)?.number ?? 0,
        waiting: waiting.all(JSON.stringify(buyerIds)).map(({ entry_id }) => entry_id),
      };
    },
    /**
     * Overwrites what points to a buyer; amounts, animals and days stay. Call inside a transaction.
     * @param inTexts gives a text without the buyer's names; undefined where none is in it
     */
    erase: (trace: BuyerTrace, by: Person, at: Instant, inTexts: (text: string) => string | undefined): void => {
      const json = { buyers: JSON.stringify(trace.buyerIds), sales: JSON.stringify(trace.sales), at };
      const theirs = 'buyer_id IN (SELECT value FROM json_each(@buyers))';
      run(
        `UPDATE buyer SET name = '${erased}', forgotten_at = @at WHERE id IN (SELECT value FROM json_each(@buyers))`,
        json,
      );
      run(
        `UPDATE sale_version SET area = NULL, region = NULL,
          cancelled_reason = CASE WHEN cancelled_at IS NULL THEN NULL ELSE '${erased}' END
          WHERE ${theirs} OR (buyer_id IS NULL AND sale_id ${inSales})`,
        json,
      );
      run(`UPDATE parcel SET tracking = NULL WHERE sale_id ${inSales}`, json);
      run(`DELETE FROM parcel_tracking WHERE parcel_id IN (SELECT id FROM parcel WHERE sale_id ${inSales})`, json);
      run(`UPDATE arrival SET photo = NULL WHERE sale_id ${inSales}`, json);
      run(`UPDATE claim SET photo = NULL, note = NULL WHERE sale_id ${inSales}`, json);
      for (const id of trace.waiting) {
        run('UPDATE entry SET voided_at = @at, voided_by_id = @userId, voided_by = @name WHERE id = @id', {
          ...by,
          at,
          id,
        });
      }
      for (const [table, column] of freeTexts) rewrite(db, table, column, inTexts);
      erasePlaces(db, trace.areas);
    },
    /**
     * Writes the database anew, so that no overwritten text lingers in its free pages or its log; false where another program holds it
     * open. Call outside a transaction.
     */
    compact: (): boolean => {
      try {
        db.exec('VACUUM');
        const [log] = db.pragma('wal_checkpoint(TRUNCATE)') as { busy: number }[];
        return log?.busy === 0;
      } catch (error) {
        if (error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY')) return false;
        throw error;
      }
    },
  };
}

const isOne = (id: number | null, ids: readonly number[]): boolean => id === null || ids.includes(id);

/** The version of each sale that holds, or of an undone sale the last. */
function holding(versions: readonly VersionRow[]): Map<number, VersionRow> {
  const found = new Map<number, VersionRow>();
  for (const version of versions) {
    const before = found.get(version.sale_id);
    if (before === undefined || version.is_live === 1 || before.is_live === 0) found.set(version.sale_id, version);
  }
  return found;
}

const salesOf = (versions: readonly VersionRow[], buyerIds: readonly number[]): number[] =>
  [...holding(versions)].flatMap(([sale, { buyer_id }]) => (isOne(buyer_id, buyerIds) ? [sale] : []));

/** Other buyers that stand only in former versions of this one's sales: the same person, before a name was mended. */
function misspelt(
  buyerId: number,
  own: readonly VersionRow[],
  versionsOf: (buyerId: number) => readonly VersionRow[],
): number[] {
  const sales = new Set(salesOf(own, [buyerId]));
  const others = [...new Set(own.flatMap(({ buyer_id }) => (isOne(buyer_id, [buyerId]) ? [] : [buyer_id ?? 0])))];
  return others.filter((id) => {
    const all = versionsOf(id);
    const holds = holding(all);
    return (
      all.every(({ sale_id }) => sales.has(sale_id)) && [...holds.values()].every(({ buyer_id }) => buyer_id !== id)
    );
  });
}

/** Forecasts for places to which nobody else's parcels went tell where the buyer lives. */
function erasePlaces(db: Database, areas: readonly string[]): void {
  const others = db.prepare<[], string>('SELECT DISTINCT area FROM sale_version WHERE area IS NOT NULL').pluck().all();
  const used = new Set(others.map(folded));
  const gone = new Set(areas.map(folded).filter((area) => !used.has(area)));
  const forecasts = db.prepare<[], { id: number; entry_id: number; area: string }>(
    'SELECT id, entry_id, area FROM weather',
  );
  const summary = db.prepare('UPDATE entry SET summary = replace(summary, ?, ?) WHERE id = ?');
  const area = db.prepare('UPDATE weather SET area = ? WHERE id = ?');
  for (const forecast of forecasts.all().filter((each) => gone.has(folded(each.area)))) {
    summary.run(forecast.area, erased, forecast.entry_id);
    area.run(erased, forecast.id);
  }
}

function rewrite(db: Database, table: string, column: string, inTexts: (text: string) => string | undefined): void {
  const update = db.prepare(`UPDATE ${table} SET ${column} = ? WHERE id = ?`);
  const rows = db
    .prepare<[], { id: number; text: string }>(`SELECT id, ${column} AS text FROM ${table} WHERE ${column} IS NOT NULL`)
    .all();
  for (const { id, text } of rows) {
    const without = inTexts(text);
    if (without !== undefined) update.run(without, id);
  }
}
