import type { Database } from 'better-sqlite3';
import type { ChorePlace, Instant } from '../domain/index.ts';

interface ActRow {
  tub_id: number;
  at: Instant;
}

/** Facts of a table from one instant up to another, tub by tub, so that the index of the table finds them. */
const actsOf = (table: string, only = ''): string => `
  SELECT f.tub_id, f.at FROM tub t CROSS JOIN ${table} f ON f.tub_id = t.id JOIN live_entry e ON e.id = f.entry_id
  WHERE f.at >= ? AND f.at < ? ${only}`;

/** The work of some time: what was ticked, and what ticks chores of itself. */
export function choreWorkStore(db: Database) {
  const acts = {
    change: db.prepare<[Instant, Instant], ActRow>(actsOf('water_change')),
    topup: db.prepare<[Instant, Instant], ActRow>(actsOf('top_up')),
    // The chore is the nitrate test: a reading of the temperature alone does not do it.
    reading: db.prepare<[Instant, Instant], ActRow>(actsOf('reading', 'AND f.nitrate_mg_l IS NOT NULL')),
    test: db.prepare<[Instant, Instant], ActRow>(
      actsOf('reading', 'AND f.ammonia_mg_l IS NOT NULL AND f.nitrite_mg_l IS NOT NULL'),
    ),
  } as const;
  const ticks = db.prepare<
    [Instant, Instant],
    { chore_id: number; tub_id: number | null; rack: string | null; at: Instant }
  >(`
    SELECT f.chore_id, f.tub_id, f.rack, f.at FROM chore c CROSS JOIN chore_done f ON f.chore_id = c.id
    JOIN live_entry e ON e.id = f.entry_id WHERE f.at >= ? AND f.at < ?`);

  return {
    /** Acts of a kind from one instant up to another. */
    acts: (act: keyof typeof acts, from: Instant, to: Instant): { readonly tubId: number; readonly at: Instant }[] =>
      acts[act].all(from, to).map(({ tub_id, at }) => ({ tubId: tub_id, at })),
    /** Ticks of all chores from one instant up to another. */
    ticks: (from: Instant, to: Instant): (ChorePlace & { readonly at: Instant })[] =>
      ticks.all(from, to).map(({ chore_id, tub_id, rack, at }) => ({ choreId: chore_id, tubId: tub_id, rack, at })),
  };
}
