import Database from 'better-sqlite3';
import type { LocalDay } from '../domain/index.ts';

/** A snapshot of a tub's colony: the day at whose end it stands, and a text of all that it rests on. */
export interface ColonySnapshot {
  readonly day: LocalDay;
  readonly ground: string;
}

/**
 * Snapshots of colonies, so that a start does not go through all the years again. They are conclusions and no facts: they live in a file of their
 * own beside the database, are not backed up, and the file may be deleted at any time.
 */
export function colonyStore(file: string) {
  const db = new Database(file);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = OFF');
  db.exec(`
    CREATE TABLE IF NOT EXISTS colony (
      tub_id INTEGER NOT NULL, day TEXT NOT NULL, ground TEXT NOT NULL, saleable REAL NOT NULL, state BLOB NOT NULL,
      PRIMARY KEY (tub_id, day)
    ) STRICT, WITHOUT ROWID`);
  const days = db.prepare<[number], ColonySnapshot>(
    'SELECT day, ground FROM colony WHERE tub_id = ? ORDER BY day DESC',
  );
  const state = db.prepare<[number, LocalDay], { state: Buffer }>(
    'SELECT state FROM colony WHERE tub_id = ? AND day = ?',
  );
  const medians = db.prepare<[number], { day: LocalDay; saleable: number }>(
    'SELECT day, saleable FROM colony WHERE tub_id = ? ORDER BY day',
  );
  const insert = db.prepare(
    'INSERT OR REPLACE INTO colony (tub_id, day, ground, saleable, state) VALUES (@tubId, @day, @ground, @saleable, @state)',
  );
  const remove = db.prepare('DELETE FROM colony WHERE tub_id = ? AND day = ?');
  const removeAll = db.prepare('DELETE FROM colony');

  return {
    /** The snapshots of a tub, the newest first. */
    days: (tubId: number): ColonySnapshot[] => days.all(tubId),
    state: (tubId: number, day: LocalDay): Uint8Array | undefined => state.get(tubId, day)?.state,
    /** Saleable animals of a tub on the days of its snapshots, the median, oldest first. */
    medians: (tubId: number): { day: LocalDay; saleable: number }[] => medians.all(tubId),
    /** Keeps new snapshots of a tub in place of those of `dropped` days. */
    keep: (
      tubId: number,
      added: readonly (ColonySnapshot & { readonly saleable: number; readonly state: Uint8Array })[],
      dropped: readonly LocalDay[],
    ): void => {
      db.transaction(() => {
        for (const day of dropped) remove.run(tubId, day);
        for (const { day, ground, saleable, state: bytes } of added) {
          insert.run({ tubId, day, ground, saleable, state: Buffer.from(bytes) });
        }
      })();
    },
    /** Forgets all of them. */
    clear: (): void => {
      removeAll.run();
    },
    close: (): void => {
      db.close();
    },
  };
}
