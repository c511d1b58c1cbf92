import type { Database } from 'better-sqlite3';
import type { Catch, CheckStep, LocalDay, ParcelCheck } from '../domain/index.ts';
import { type LoggedRow, liveFacts, loggedOf } from './logged.ts';

interface CheckRow extends LoggedRow {
  sale_id: number;
  step: CheckStep;
  number: number | null;
  for_day: LocalDay;
}

/** What was checked while parcels were packed. */
export function parcelCheckStore(db: Database) {
  const ofSale = db.prepare<[number], CheckRow>(`${liveFacts('parcel_check')} WHERE f.sale_id = ? ORDER BY f.id`);
  const catches = db.prepare<[number], Catch>(
    'SELECT tub_id AS tubId, line_id AS lineId, number FROM parcel_check_catch WHERE parcel_check_id = ? ORDER BY id',
  );
  const insert = db.prepare(`
    INSERT INTO parcel_check (entry_id, sale_id, at, step, number, for_day) VALUES (@entryId, @saleId, @at, @step, @number, @forDay)`);
  const insertCatch = db.prepare(
    'INSERT INTO parcel_check_catch (parcel_check_id, tub_id, line_id, number) VALUES (?, ?, ?, ?)',
  );

  return {
    /** What was checked about a sale's parcel, in the order in which it was logged. */
    of: (saleId: number): ParcelCheck[] =>
      ofSale.all(saleId).map((row) => ({
        ...loggedOf(row),
        saleId: row.sale_id,
        step: row.step,
        number: row.number,
        forDay: row.for_day,
        catches: catches.all(row.id),
      })),
    add: (
      entryId: number,
      { catches: rows, ...check }: Pick<ParcelCheck, 'saleId' | 'at' | 'step' | 'number' | 'forDay' | 'catches'>,
    ): void => {
      const id = Number(insert.run({ ...check, entryId }).lastInsertRowid);
      for (const { tubId, lineId, number } of rows) insertCatch.run(id, tubId, lineId, number);
    },
  };
}
