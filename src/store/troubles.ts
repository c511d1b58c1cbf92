import type { Database } from 'better-sqlite3';
import type { ChangedThing, SeenThing, Trouble } from '../domain/index.ts';
import { type LoggedRow, liveFacts, loggedOf } from './logged.ts';

interface TroubleRow extends LoggedRow {
  tub_id: number;
  changed: string;
  seen: string;
}

const between = ', ';
const listOf = <T extends string>(text: string): T[] => (text === '' ? [] : (text.split(between) as T[]));

/** What was said of tubs in trouble. */
export function troubleStore(db: Database) {
  const add = db.prepare(
    'INSERT INTO trouble (entry_id, tub_id, at, changed, seen) VALUES (@entryId, @tubId, @at, @changed, @seen)',
  );
  const latest = db.prepare<[number], TroubleRow>(
    `${liveFacts('trouble')} WHERE f.tub_id = ? ORDER BY f.at DESC, f.id DESC LIMIT 1`,
  );
  return {
    add: (entryId: number, trouble: Pick<Trouble, 'tubId' | 'at' | 'changed' | 'seen'>): void => {
      const { changed, seen, ...more } = trouble;
      add.run({ ...more, entryId, changed: changed.join(between), seen: seen.join(between) });
    },
    /** The last trouble of a tub. */
    latest: (tubId: number): Trouble | undefined => {
      const row = latest.get(tubId);
      if (row === undefined) return undefined;
      const [changed, seen] = [listOf<ChangedThing>(row.changed), listOf<SeenThing>(row.seen)];
      return { ...loggedOf(row), tubId: row.tub_id, changed, seen };
    },
  };
}
