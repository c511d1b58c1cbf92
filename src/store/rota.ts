import type { Database } from 'better-sqlite3';
import type { ChoreAct, ChorePlace, Doing, Instant, LocalDay } from '../domain/index.ts';

/** A task of the rota as it was told. */
export interface ToldRow extends ChorePlace {
  readonly on: LocalDay;
  readonly userId: string | null;
}

/** The rota as it was told last, and who did what. */
export function rotaStore(db: Database) {
  const told = db.prepare<[], ToldRow>(
    'SELECT chore_id AS choreId, tub_id AS tubId, rack, on_day AS "on", user_id AS userId FROM rota_told ORDER BY id',
  );
  const forget = db.prepare('DELETE FROM rota_told');
  const tell = db.prepare(
    'INSERT INTO rota_told (chore_id, tub_id, rack, on_day, user_id) VALUES (@choreId, @tubId, @rack, @on, @userId)',
  );
  // CROSS JOIN keeps the order: by chore and by tub, so that the index serves each, however long the history is.
  const actOf = (act: Exclude<ChoreAct, 'own'>, table: string, only = ''): string => `
    SELECT '${act}' AS act, NULL AS choreId, f.tub_id AS tubId, NULL AS rack, f.at, e.user_id AS userId FROM tub t
      CROSS JOIN ${table} f ON f.tub_id = t.id AND f.at >= @from AND f.at < @before ${only} JOIN live_entry e ON e.id = f.entry_id`;
  const doings = db.prepare<{ from: Instant; before: Instant }, Doing>(`
    SELECT 'own' AS act, f.chore_id AS choreId, f.tub_id AS tubId, f.rack, f.at, e.user_id AS userId FROM chore c
      CROSS JOIN chore_done f ON f.chore_id = c.id AND f.at >= @from AND f.at < @before JOIN live_entry e ON e.id = f.entry_id
    UNION ALL ${actOf('change', 'water_change')}
    UNION ALL ${actOf('reading', 'reading', 'AND f.nitrate_mg_l IS NOT NULL')}
    UNION ALL ${actOf('test', 'reading', 'AND f.ammonia_mg_l IS NOT NULL AND f.nitrite_mg_l IS NOT NULL')}
    UNION ALL ${actOf('topup', 'top_up')} ORDER BY at`);

  const onTheWay = db.prepare<[Instant], { at: Instant }>(`
    SELECT p.at FROM parcel p JOIN live_entry e ON e.id = p.entry_id WHERE p.at >= ?
      AND NOT EXISTS (SELECT 1 FROM arrival a JOIN live_entry ae ON ae.id = a.entry_id WHERE a.sale_id = p.sale_id) ORDER BY p.at`);

  return {
    /** When each parcel was sent, since an instant, of which nobody has said how it arrived. */
    sentUnheard: (since: Instant): Instant[] => onTheWay.all(since).map(({ at }) => at),
    told: (): ToldRow[] => told.all(),
    /** Replaces what was told before. */
    tell: (tasks: readonly ToldRow[]): void => {
      forget.run();
      for (const task of tasks) tell.run(task);
    },
    /** Ticks, and logged acts that tick chores, from one instant up to another, oldest first. */
    doings: (from: Instant, before: Instant): Doing[] => doings.all({ from, before }),
  };
}
