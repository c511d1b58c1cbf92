import type { Database } from 'better-sqlite3';
import type { Outlet } from '../domain/index.ts';
import { currentVersions } from './versions.ts';

interface OutletRow {
  outlet_id: number;
  name: string;
  percent: number;
  fixed_minor: number;
  on_postage: number;
}

/** Selling places and what they take. */
export function outletStore(db: Database) {
  const outlets = db.prepare<[], OutletRow>(`${currentVersions('outlet')} ORDER BY v.outlet_id`);
  const insert = db.prepare<[number]>('INSERT INTO outlet (entry_id) VALUES (?)');
  const insertVersion = db.prepare(`
    INSERT INTO outlet_version (entry_id, outlet_id, name, percent, fixed_minor, on_postage)
    VALUES (@entryId, @id, @name, @percent, @fixedMinor, @onPostage)`);

  return {
    outlets: (): Outlet[] =>
      outlets.all().map((row) => ({
        id: row.outlet_id,
        name: row.name,
        percent: row.percent,
        fixedMinor: row.fixed_minor,
        onPostage: row.on_postage === 1,
      })),
    addOutlet: (entryId: number, outlet: Omit<Outlet, 'id'>): number => {
      const id = Number(insert.run(entryId).lastInsertRowid);
      insertVersion.run({ ...outlet, id, entryId, onPostage: Number(outlet.onPostage) });
      return id;
    },
    editOutlet: (entryId: number, outlet: Outlet): void => {
      insertVersion.run({ ...outlet, entryId, onPostage: Number(outlet.onPostage) });
    },
  };
}
