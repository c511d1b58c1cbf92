import type { Database } from 'better-sqlite3';
import type { ColumnKind, ExportTable, Instant } from '../domain/index.ts';
import { saleRows } from './saleRows.ts';
import { currentName, currentVersions } from './versions.ts';
import { stillWanted } from './waiting.ts';

/** A table as it is read: its columns in the order of the query; a dated one takes the moments `@from` and `@to`. */
interface Reading {
  readonly columns: Readonly<Record<string, ColumnKind>>;
  readonly sql: string;
}

const by = 'e.user_name AS logged_by';
const dated = (at: string): string => `${at} >= @from AND ${at} < @to`;
/** Facts of a table with their tub's name and who logged them, oldest first. */
const ofTub = (table: string, columns: string): string => `
  SELECT ${currentName('tub', 'f.tub_id')} AS tub, f.at, ${columns}, ${by}
  FROM ${table} f JOIN live_entry e ON e.id = f.entry_id WHERE ${dated('f.at')} ORDER BY f.at, f.id`;
const tubFact = { tub: 'text', at: 'moment' } as const;
const logged = { logged_by: 'text' } as const;

const readings = {
  sales: {
    columns: {
      ...{ sale: 'number', booked: 'moment', buyer: 'text', area: 'text', region: 'text', outlet: 'text' },
      ...{ dispatch_day: 'day', price: 'money', postage: 'money', paid: 'money', kept_until: 'moment', sent: 'moment' },
      ...{ delivered: 'moment', cancelled: 'moment', reason: 'text', ...logged },
    },
    sql: `
      SELECT sale_id, added_at, buyer, area, region, outlet, dispatch_on, price_minor, postage_minor, paid_minor, kept_until, sent_at,
        CASE WHEN arrival_id IS NULL THEN NULL ELSE arrival_at END, cancelled_at, cancelled_reason, user_name
      FROM (${saleRows}) WHERE ${dated('added_at')} ORDER BY sale_id`,
  },
  items: {
    columns: {
      ...{ sale: 'number', booked: 'moment', of: 'text', name: 'text', number: 'number', extras: 'number' },
      ...{ list_price_each: 'money' },
    },
    sql: `
      SELECT v.sale_id, s.added_at, CASE WHEN i.line_id IS NULL THEN 'goods' ELSE 'animals' END,
        coalesce(${currentName('line', 'i.line_id')}, ${currentName('goods', 'i.goods_id')}), i.number, i.extras, i.price_minor
      FROM (${currentVersions('sale')}) v JOIN sale s ON s.id = v.sale_id JOIN sale_item i ON i.sale_version_id = v.id
      WHERE ${dated('s.added_at')} ORDER BY v.sale_id, i.id`,
  },
  payments: {
    columns: { sale: 'number', at: 'moment', amount: 'money', ...logged },
    sql: `
      SELECT f.sale_id, f.at, f.amount_minor, ${by} FROM payment f JOIN live_entry e ON e.id = f.entry_id
      WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  costs: {
    columns: { at: 'moment', amount: 'money', what: 'text', kind: 'text', tub: 'text', ...logged },
    sql: `
      SELECT f.at, f.amount_minor, f.what, f.kind, ${currentName('tub', 'f.tub_id')}, ${by}
      FROM cost f JOIN live_entry e ON e.id = f.entry_id WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  parcels: {
    columns: {
      ...{ sale: 'number', sent: 'moment', tracking: 'text', tub: 'text', line: 'text', number: 'number', ...logged },
    },
    sql: `
      SELECT f.sale_id, f.at, coalesce((SELECT k.tracking FROM parcel_tracking k JOIN live_entry ke ON ke.id = k.entry_id
          WHERE k.parcel_id = f.id ORDER BY k.id DESC LIMIT 1), f.tracking),
        ${currentName('tub', 'c.tub_id')}, ${currentName('line', 'c.line_id')}, c.number, ${by}
      FROM parcel f JOIN live_entry e ON e.id = f.entry_id LEFT JOIN parcel_catch c ON c.parcel_id = f.id
      WHERE ${dated('f.at')} ORDER BY f.at, f.id, c.id`,
  },
  checks: {
    columns: {
      ...{ sale: 'number', at: 'moment', step: 'text', counted: 'number', for_day: 'day', tub: 'text', line: 'text' },
      ...{ number: 'number', ...logged },
    },
    sql: `
      SELECT f.sale_id, f.at, f.step, f.number, f.for_day, ${currentName('tub', 'c.tub_id')}, ${currentName('line', 'c.line_id')},
        c.number, ${by}
      FROM parcel_check f JOIN live_entry e ON e.id = f.entry_id LEFT JOIN parcel_check_catch c ON c.parcel_check_id = f.id
      WHERE ${dated('f.at')} ORDER BY f.at, f.id, c.id`,
  },
  arrivals: {
    columns: { sale: 'number', delivered: 'moment', dead: 'number', photo: 'text', ...logged },
    sql: `
      SELECT f.sale_id, f.delivered_at, f.dead, f.photo, ${by} FROM arrival f JOIN live_entry e ON e.id = f.entry_id
      WHERE ${dated('f.delivered_at')} ORDER BY f.delivered_at, f.id`,
  },
  claims: {
    columns: {
      ...{ sale: 'number', at: 'moment', dead: 'number', photo: 'text', note: 'text', answer: 'text', refund: 'money' },
      ...{ answered: 'moment', resent_as: 'number', ...logged },
    },
    sql: `
      SELECT f.sale_id, f.at, f.dead, f.photo, f.note, r.how, CASE WHEN r.how = 'refund' THEN r.amount_minor END, r.at,
        r.resend_sale_id, ${by}
      FROM claim f JOIN live_entry e ON e.id = f.entry_id LEFT JOIN claim_settlement r ON r.id = (
        SELECT max(t.id) FROM claim_settlement t JOIN live_entry te ON te.id = t.entry_id WHERE t.claim_id = f.id)
      WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  tubs: {
    columns: {
      ...{ tub: 'text', line: 'text', rack: 'text', role: 'text', litres: 'number', net_litres: 'number' },
      ...{ added: 'moment', retired: 'moment', reason: 'text' },
    },
    sql: `
      SELECT v.name, ${currentName('line', 'v.line_id')}, v.rack, v.role, v.litres, v.net_litres, t.added_at, v.retired_at, v.retired_reason
      FROM (${currentVersions('tub')}) v JOIN tub t ON t.id = v.tub_id ORDER BY v.rack, length(v.name), v.name`,
  },
  lines: {
    columns: { line: 'text', price: 'money', saleable_mm: 'number', hold_back: 'number' },
    sql: `SELECT v.name, v.price_minor, v.saleable_mm, v.hold_back FROM (${currentVersions('line')}) v ORDER BY v.line_id`,
  },
  readings: {
    columns: {
      ...{ ...tubFact, temp_c: 'number', ph: 'number', gh_dgh: 'number', kh_dkh: 'number', tds_mg_l: 'number' },
      ...{ ammonia_mg_l: 'number', nitrite_mg_l: 'number', nitrate_mg_l: 'number', note: 'text', ...logged },
    },
    sql: ofTub(
      'reading',
      'f.temp_c, f.ph, f.gh_dgh, f.kh_dkh, f.tds_mg_l, f.ammonia_mg_l, f.nitrite_mg_l, f.nitrate_mg_l, f.note',
    ),
  },
  changes: {
    columns: { ...tubFact, litres: 'number', note: 'text', ...logged },
    sql: ofTub('water_change', 'f.litres, f.note'),
  },
  topups: {
    columns: { ...tubFact, litres: 'number', water: 'text', ...logged },
    sql: ofTub('top_up', 'f.litres, f.water'),
  },
  counts: {
    columns: {
      ...{ ...tubFact, saleable: 'number', juveniles: 'number', berried: 'number', method: 'text' },
      ...{ first: 'number', second: 'number', third: 'number', fourth: 'number', ...logged },
    },
    sql: `
      SELECT ${currentName('tub', 'f.tub_id')}, f.at, f.saleable, f.juveniles, f.berried, f.method, p.first, p.second, p.third, p.fourth, ${by}
      FROM stock_count f JOIN live_entry e ON e.id = f.entry_id LEFT JOIN removal_passes p ON p.stock_count_id = f.id
      WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  moves: {
    columns: { from_tub: 'text', to_tub: 'text', at: 'moment', number: 'number', stage: 'text', ...logged },
    sql: `
      SELECT ${currentName('tub', 'f.from_tub_id')}, ${currentName('tub', 'f.to_tub_id')}, f.at, f.number, f.stage, ${by}
      FROM animal_move f JOIN live_entry e ON e.id = f.entry_id WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  losses: {
    columns: { ...tubFact, number: 'number', cause: 'text', ...logged },
    sql: ofTub('loss', 'f.number, f.cause'),
  },
  holds: {
    columns: { ...tubFact, reason: 'text', until: 'day', lifted: 'number', ...logged },
    sql: ofTub('hold', 'f.reason, f.until_day, f.lifted'),
  },
  troubles: {
    columns: { ...tubFact, changed: 'text', seen: 'text', ...logged },
    sql: ofTub('trouble', 'f.changed, f.seen'),
  },
  goods: {
    columns: { goods: 'text', price: 'money', stock: 'number', line: 'text', keep_at_least: 'number' },
    sql: `
      SELECT v.name, v.price_minor, (SELECT coalesce(sum(k.number), 0) FROM goods_stock k JOIN live_entry ke ON ke.id = k.entry_id
          WHERE k.goods_id = v.goods_id), ${currentName('line', 'v.line_id')}, v.keep_at_least
      FROM (${currentVersions('goods')}) v ORDER BY v.name`,
  },
  outlets: {
    columns: { outlet: 'text', percent: 'number', fixed: 'money', on_postage: 'number' },
    sql: `SELECT v.name, v.percent, v.fixed_minor, v.on_postage FROM (${currentVersions('outlet')}) v ORDER BY v.outlet_id`,
  },
  seasons: {
    columns: { name: 'text', from: 'text', to: 'text' },
    sql: `
      SELECT v.name, v.from_md, v.to_md FROM (${currentVersions('closed_window')}) v WHERE v.removed = 0 ORDER BY v.closed_window_id`,
  },
  settings: {
    columns: { name: 'text', value: 'text' },
    sql: `
      SELECT s.name, CASE json_type(s.value) WHEN 'text' THEN json_extract(s.value, '$') ELSE s.value END
      FROM setting s JOIN live_entry e ON e.id = s.entry_id WHERE s.id = (
        SELECT max(o.id) FROM setting o JOIN live_entry oe ON oe.id = o.entry_id WHERE o.name = s.name) ORDER BY s.name`,
  },
  partners: {
    columns: {
      name: 'text',
      share_percent: 'number',
      never: 'text',
      away_from: 'day',
      away_to: 'day',
      owner: 'number',
    },
    sql: `
      SELECT v.name, v.share_percent, (SELECT group_concat(n.value, ', ') FROM json_each(v.never) n), v.away_from, v.away_to, v.owner FROM partner_version v
      WHERE v.removed = 0 AND v.id = (
        SELECT max(o.id) FROM partner_version o JOIN live_entry oe ON oe.id = o.entry_id WHERE o.user_id = v.user_id) ORDER BY v.name`,
  },
  'chore-list': {
    columns: { chore: 'text', every_days: 'number', minutes: 'number', scope: 'text', off: 'number' },
    sql: `SELECT v.name, v.every_days, v.minutes, v.scope, v.off FROM (${currentVersions('chore')}) v ORDER BY v.chore_id`,
  },
  chores: {
    columns: { chore: 'text', at: 'moment', tub: 'text', rack: 'text', ...logged },
    sql: `
      SELECT ${currentName('chore', 'f.chore_id')}, f.at, ${currentName('tub', 'f.tub_id')}, f.rack, ${by}
      FROM chore_done f JOIN live_entry e ON e.id = f.entry_id WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  weather: {
    columns: { day: 'day', area: 'text', low_c: 'number', high_c: 'number', at: 'moment', ...logged },
    sql: `
      SELECT f.day, f.area, f.low_c, f.high_c, f.at, ${by} FROM weather f JOIN live_entry e ON e.id = f.entry_id
      WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  waiting: {
    columns: { buyer: 'text', line: 'text', number: 'number', still_wanted: 'number', at: 'moment', ...logged },
    sql: `
      SELECT b.name, ${currentName('line', 'f.line_id')}, f.number, ${stillWanted}, f.at, ${by}
      FROM waiting f JOIN live_entry e ON e.id = f.entry_id JOIN buyer b ON b.id = f.buyer_id AND b.forgotten_at IS NULL
      WHERE ${dated('f.at')} ORDER BY f.at, f.id`,
  },
  entries: {
    columns: {
      ...{ entry: 'number', logged: 'moment', kind: 'text', summary: 'text', logged_by: 'text' },
      ...{ undone: 'moment', undone_by: 'text' },
    },
    sql: `
      SELECT id, logged_at, kind, summary, user_name, voided_at, voided_by FROM entry
      WHERE ${dated('logged_at')} ORDER BY id`,
  },
} as const satisfies Record<string, Reading>;

/** The tables that can be read as they stand. */
export type StoredTable = keyof typeof readings;
export const storedTables = Object.keys(readings) as StoredTable[];

/** Tables to hand out: what holds, under the names that people know, nothing undone but in the list of entries. */
export function exportStore(db: Database) {
  return {
    /** A table whole, of one with dates the rows from one instant up to another. */
    read: (name: StoredTable, from: Instant, to: Instant): ExportTable => {
      const { columns, sql }: Reading = readings[name];
      const statement = db.prepare(sql).raw();
      const rows = sql.includes('@from') ? statement.all({ from, to }) : statement.all();
      return {
        name,
        columns: Object.entries(columns).map(([column, is]) => ({ name: column, is })),
        rows: rows as ExportTable['rows'],
      };
    },
  };
}
