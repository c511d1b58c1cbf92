import type { Database } from 'better-sqlite3';
import type { Instant, Line, Tub, TubRole } from '../domain/index.ts';
import { currentVersions, isCurrent } from './versions.ts';

interface LineRow {
  line_id: number;
  name: string;
  price_minor: number | null;
  saleable_mm: number;
  hold_back: number;
}

interface TubRow {
  tub_id: number;
  name: string;
  line_id: number;
  line_name: string;
  litres: number;
  net_litres: number;
  rack: string;
  role: TubRole;
  added_at: Instant;
  retired_at: Instant | null;
  retired_reason: string | null;
}

const lineOf = (row: LineRow): Line => ({
  id: row.line_id,
  name: row.name,
  priceMinor: row.price_minor,
  saleableMm: row.saleable_mm,
  holdBack: row.hold_back,
});

const tubOf = (row: TubRow): Tub => ({
  id: row.tub_id,
  name: row.name,
  lineId: row.line_id,
  lineName: row.line_name,
  litres: row.litres,
  netLitres: row.net_litres,
  rack: row.rack,
  role: row.role,
  addedAt: row.added_at,
  retired:
    row.retired_at === null || row.retired_reason === null ? null : { at: row.retired_at, reason: row.retired_reason },
});

const currentLine = currentVersions('line');

const currentTub = `
  SELECT v.*, t.added_at, l.name AS line_name FROM tub_version v
  JOIN tub t ON t.id = v.tub_id
  JOIN (${currentLine}) l ON l.line_id = v.line_id
  WHERE ${isCurrent('tub')}`;

/** Lines and tubs as they are now. */
export function tubStore(db: Database) {
  const newLine = db.prepare<[number]>('INSERT INTO line (entry_id) VALUES (?)');
  const addLineVersion = db.prepare(`
    INSERT INTO line_version (entry_id, line_id, name, price_minor, saleable_mm, hold_back)
    VALUES (@entryId, @id, @name, @priceMinor, @saleableMm, @holdBack)`);
  const lines = db.prepare<[], LineRow>(`${currentLine} ORDER BY v.line_id`);
  const newTub = db.prepare<[number, Instant]>('INSERT INTO tub (entry_id, added_at) VALUES (?, ?)');
  const addTubVersion = db.prepare(`
    INSERT INTO tub_version (entry_id, tub_id, name, line_id, litres, net_litres, rack, role, retired_at, retired_reason)
    VALUES (@entryId, @id, @name, @lineId, @litres, @netLitres, @rack, @role, @retiredAt, @retiredReason)`);
  const tubs = db.prepare<[], TubRow>(`${currentTub} ORDER BY v.rack, length(v.name), v.name`);
  const tub = db.prepare<[number], TubRow>(`${currentTub} AND v.tub_id = ?`);
  const netLitres = db.prepare<[number], { entry_id: number; net_litres: number }>(`
    SELECT v.entry_id, v.net_litres FROM tub_version v JOIN live_entry e ON e.id = v.entry_id
    WHERE v.tub_id = ? ORDER BY v.entry_id`);

  return {
    lines: (): Line[] => lines.all().map(lineOf),
    addLine: (entryId: number, line: Omit<Line, 'id'>): number => {
      const id = Number(newLine.run(entryId).lastInsertRowid);
      addLineVersion.run({ ...line, id, entryId });
      return id;
    },
    editLine: (entryId: number, line: Line): void => {
      addLineVersion.run({ ...line, entryId });
    },
    /** Every tub that is not undone, retired ones included, in rack order. */
    tubs: (): Tub[] => tubs.all().map(tubOf),
    tub: (id: number): Tub | undefined => {
      const row = tub.get(id);
      return row === undefined ? undefined : tubOf(row);
    },
    /** The water a tub held by each version of it that is not voided, the oldest first, L. */
    netLitres: (id: number): { readonly entryId: number; readonly netLitres: number }[] =>
      netLitres.all(id).map((row) => ({ entryId: row.entry_id, netLitres: row.net_litres })),
    addTub: (entryId: number, added: Omit<Tub, 'id' | 'lineName' | 'retired'>): number => {
      const id = Number(newTub.run(entryId, added.addedAt).lastInsertRowid);
      addTubVersion.run({ ...added, id, entryId, retiredAt: null, retiredReason: null });
      return id;
    },
    editTub: (entryId: number, edited: Tub): void => {
      addTubVersion.run({
        ...edited,
        entryId,
        retired: undefined,
        retiredAt: edited.retired?.at ?? null,
        retiredReason: edited.retired?.reason ?? null,
      });
    },
  };
}
