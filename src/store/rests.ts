import type { Database } from 'better-sqlite3';

const factsOfTub = [
  'reading',
  'water_change',
  'top_up',
  'stock_count',
  'loss',
  'hold',
  'trouble',
  'chore_done',
  'chore_later',
  'chore_hand_over',
  'cost',
];

const dependants = [
  ...factsOfTub.map(
    (table) => `SELECT entry_id FROM ${table} WHERE tub_id IN (SELECT id FROM tub WHERE entry_id = @id)`,
  ),
  'SELECT entry_id FROM animal_move WHERE from_tub_id IN (SELECT id FROM tub WHERE entry_id = @id)',
  'SELECT entry_id FROM animal_move WHERE to_tub_id IN (SELECT id FROM tub WHERE entry_id = @id)',
  'SELECT p.entry_id FROM parcel_catch c JOIN parcel p ON p.id = c.parcel_id WHERE c.tub_id IN (SELECT id FROM tub WHERE entry_id = @id)',
  'SELECT p.entry_id FROM parcel_check_catch c JOIN parcel_check p ON p.id = c.parcel_check_id WHERE c.tub_id IN (SELECT id FROM tub WHERE entry_id = @id)',
  'SELECT entry_id FROM tub_version WHERE tub_id IN (SELECT id FROM tub WHERE entry_id = @id)',
  'SELECT entry_id FROM tub_version WHERE line_id IN (SELECT id FROM line WHERE entry_id = @id)',
  'SELECT entry_id FROM goods_version WHERE line_id IN (SELECT id FROM line WHERE entry_id = @id)',
  'SELECT entry_id FROM waiting WHERE line_id IN (SELECT id FROM line WHERE entry_id = @id)',
  'SELECT entry_id FROM waiting_change WHERE waiting_id IN (SELECT id FROM waiting WHERE entry_id = @id)',
  'SELECT v.entry_id FROM sale_item i JOIN sale_version v ON v.id = i.sale_version_id WHERE i.line_id IN (SELECT id FROM line WHERE entry_id = @id)',
  'SELECT v.entry_id FROM sale_item i JOIN sale_version v ON v.id = i.sale_version_id WHERE i.goods_id IN (SELECT id FROM goods WHERE entry_id = @id)',
  'SELECT entry_id FROM goods_stock WHERE goods_id IN (SELECT id FROM goods WHERE entry_id = @id)',
  'SELECT entry_id FROM sale_version WHERE outlet_id IN (SELECT id FROM outlet WHERE entry_id = @id)',
  ...['sale_version', 'payment', 'parcel', 'parcel_check', 'arrival', 'claim'].map(
    (table) => `SELECT entry_id FROM ${table} WHERE sale_id IN (SELECT id FROM sale WHERE entry_id = @id)`,
  ),
  ...['tub', 'line', 'chore', 'sale', 'goods', 'outlet', 'closed_window'].map(
    (noun) =>
      `SELECT entry_id FROM ${noun}_version WHERE ${noun}_id IN (SELECT ${noun}_id FROM ${noun}_version WHERE entry_id = @id)`,
  ),
  'SELECT entry_id FROM partner_version WHERE user_id IN (SELECT user_id FROM partner_version WHERE entry_id = @id)',
  ...['payment', 'parcel'].map(
    (table) => `SELECT entry_id FROM ${table} WHERE sale_id IN (SELECT sale_id FROM sale_version WHERE entry_id = @id)`,
  ),
  'SELECT entry_id FROM parcel WHERE sale_id IN (SELECT sale_id FROM payment WHERE entry_id = @id)',
  'SELECT entry_id FROM parcel_tracking WHERE parcel_id IN (SELECT id FROM parcel WHERE entry_id = @id)',
  'SELECT entry_id FROM arrival WHERE sale_id IN (SELECT sale_id FROM parcel WHERE entry_id = @id)',
  'SELECT entry_id FROM claim WHERE sale_id IN (SELECT sale_id FROM parcel WHERE entry_id = @id)',
  'SELECT entry_id FROM claim WHERE sale_id IN (SELECT sale_id FROM arrival WHERE entry_id = @id)',
  'SELECT entry_id FROM claim_settlement WHERE claim_id IN (SELECT id FROM claim WHERE entry_id = @id)',
  ...['chore_version', 'chore_done', 'chore_later', 'chore_hand_over'].map(
    (table) => `SELECT entry_id FROM ${table} WHERE chore_id IN (SELECT id FROM chore WHERE entry_id = @id)`,
  ),
];

/** What later entries rest on: voiding their ground would leave them in the air. */
export function restStore(db: Database) {
  const resting = db.prepare<{ id: number }, { summary: string }>(`
    SELECT DISTINCT e.id, e.summary FROM live_entry e
    WHERE e.id > @id AND e.id IN (${dependants.join(' UNION ')}) ORDER BY e.id DESC LIMIT 5`);
  return {
    /** Summaries of up to five later entries that would hang in the air without this one, newest first. */
    on: (entryId: number): string[] => resting.all({ id: entryId }).map(({ summary }) => summary),
  };
}
