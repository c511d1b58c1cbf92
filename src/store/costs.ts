import type { Database } from 'better-sqlite3';
import type { Cost, CostKind, Instant } from '../domain/index.ts';
import { type LoggedRow, loggedOf } from './logged.ts';
import { currentName } from './versions.ts';

interface CostRow extends LoggedRow {
  amount_minor: number;
  what: string;
  kind: CostKind;
  tub_id: number | null;
  tub: string | null;
  line_id: number | null;
  line: string | null;
}

/** The line in the tub of a cost when it was spent; of one spent before the tub was added, the first. */
const lineThen = `
  coalesce(
    (SELECT v.line_id FROM tub_version v JOIN live_entry ve ON ve.id = v.entry_id
      WHERE v.tub_id = c.tub_id AND ve.logged_at <= c.at ORDER BY v.id DESC LIMIT 1),
    (SELECT v.line_id FROM tub_version v JOIN live_entry ve ON ve.id = v.entry_id
      WHERE v.tub_id = c.tub_id ORDER BY v.id LIMIT 1))`;

const costs = `
  SELECT c.*, ${currentName('line', 'c.line_id')} AS line FROM (
    SELECT c.id, c.entry_id, c.at, c.amount_minor, c.what, c.kind, c.tub_id, e.user_name, e.logged_at,
      ${currentName('tub', 'c.tub_id')} AS tub, ${lineThen} AS line_id
    FROM cost c JOIN live_entry e ON e.id = c.entry_id) c`;

function costOf(row: CostRow): Cost {
  const { tub_id: id, tub: name, line_id: lineId, line: lineName } = row;
  const known = id !== null && name !== null && lineId !== null && lineName !== null;
  return {
    ...loggedOf(row),
    amountMinor: row.amount_minor,
    what: row.what,
    kind: row.kind,
    tub: known ? { id, name, lineId, lineName } : null,
  };
}

/** Money that went out. */
export function costStore(db: Database) {
  const insert = db.prepare(`
    INSERT INTO cost (entry_id, at, amount_minor, what, kind, tub_id) VALUES (@entryId, @at, @amountMinor, @what, @kind, @tubId)`);
  const between = db.prepare<[Instant, Instant], CostRow>(`${costs} WHERE c.at >= ? AND c.at < ? ORDER BY c.at, c.id`);
  const ofEntry = db.prepare<[number], CostRow>(`${costs} WHERE c.entry_id = ?`);
  const withTub = db.prepare<[Instant], CostRow>(
    `${costs} WHERE c.tub_id IS NOT NULL AND c.at < ? ORDER BY c.at, c.id`,
  );

  return {
    addCost: (
      entryId: number,
      cost: Pick<Cost, 'at' | 'amountMinor' | 'what' | 'kind'> & { readonly tubId: number | null },
    ): void => {
      insert.run({ ...cost, entryId });
    },
    /** Costs from one instant up to another, oldest first. */
    between: (from: Instant, to: Instant): Cost[] => between.all(from, to).map(costOf),
    /** The cost that an entry holds; undefined where the entry is voided or holds none. */
    ofEntry: (entryId: number): Cost | undefined => {
      const row = ofEntry.get(entryId);
      return row === undefined ? undefined : costOf(row);
    },
    /** Costs up to an instant that were logged with a tub, oldest first. */
    withTub: (to: Instant): Cost[] => withTub.all(to).map(costOf),
  };
}
