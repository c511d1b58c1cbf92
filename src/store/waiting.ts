import type { Database } from 'better-sqlite3';
import type { Instant, Waiting } from '../domain/index.ts';
import { type LoggedRow, loggedOf } from './logged.ts';

interface WaitingRow extends LoggedRow {
  line_id: number;
  buyer_id: number;
  buyer: string;
  number: number;
}

/** How many are still wanted at a place `f` of the list. */
export const stillWanted = `
  coalesce((SELECT c.number FROM waiting_change c JOIN live_entry ce ON ce.id = c.entry_id
    WHERE c.waiting_id = f.id ORDER BY c.id DESC LIMIT 1), f.number)`;

/** Buyers who wait for animals of a line. */
export function waitingStore(db: Database) {
  const all = db.prepare<[], WaitingRow>(`
    SELECT f.id, f.entry_id, f.line_id, f.buyer_id, f.at, b.name AS buyer, ${stillWanted} AS number, e.user_name, e.logged_at
    FROM waiting f JOIN live_entry e ON e.id = f.entry_id JOIN buyer b ON b.id = f.buyer_id AND b.forgotten_at IS NULL
    WHERE ${stillWanted} > 0 ORDER BY f.at, f.id`);
  const insert = db.prepare(
    'INSERT INTO waiting (entry_id, line_id, buyer_id, number, at) VALUES (@entryId, @lineId, @buyerId, @number, @at)',
  );
  const change = db.prepare<[number, number, number]>(
    'INSERT INTO waiting_change (entry_id, waiting_id, number) VALUES (?, ?, ?)',
  );

  return {
    /** Everybody who still waits and is not forgotten, who came first before the others. */
    all: (): Waiting[] =>
      all.all().map((row) => ({
        ...loggedOf(row),
        lineId: row.line_id,
        buyerId: row.buyer_id,
        buyer: row.buyer,
        number: row.number,
      })),
    add: (entryId: number, added: Pick<Waiting, 'lineId' | 'buyerId' | 'number'> & { readonly at: Instant }): void => {
      insert.run({ ...added, entryId });
    },
    /** Says how many are wanted from now on; 0 takes it off the list. The place stays. */
    change: (entryId: number, waitingId: number, number: number): void => {
      change.run(entryId, waitingId, number);
    },
  };
}
