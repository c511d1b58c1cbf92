import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  cancelSale,
  editSale,
  exportTables,
  forgetBuyer,
  keepDraft,
  keptDraft,
  logArrival,
  logCost,
  logReading,
  logWeather,
  moneyReport,
  openClaim,
  paySale,
  salesList,
  sendParcel,
  settleClaim,
  stock,
  toForget,
  undo,
  undoable,
} from '../../../src/desk/index.ts';
import { day, monthOf } from '../../../src/domain/index.ts';
import { databaseFile } from '../../../src/store/open.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-08T09:00:00Z');
});
afterEach(() => test.close());

const by = (name = 'wren') => test.by(name);
const forget = (name: string) => {
  const { buyerId } = taken(toForget(test.desk, name));
  const done = forgetBuyer(test.desk, by('alder'), buyerId);
  if (done === undefined) throw new Error(`${name} was forgotten already`);
  return taken(done);
};
/** All that stands in the files of the data folder, as bytes. */
const bytesOf = (folder: string): string =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((file) => file.isFile())
    .map((file) => readFileSync(join(file.parentPath, file.name), 'latin1'))
    .join('\n');

const photos = () => join(test.folder, 'photos');

/** A parcel of Kestrel Brook's that arrived with losses and was settled, and all the places in which the name can stand. */
function wholeStory(): number {
  mkdirSync(photos(), { recursive: true });
  mkdirSync(join(test.folder, 'backups', 'photos'), { recursive: true });
  for (const name of ['bag-71.jpg', 'bag-72.jpg', 'heron.jpg']) writeFileSync(join(photos(), name), `photo ${name}`);
  writeFileSync(join(test.folder, 'backups', 'photos', 'bag-71.jpg'), 'copy');
  const { id } = test.sell(10, { buyer: 'Kestrel Brook', area: 'Mill Lane 12', region: 'NL-ZH', postageMinor: 700 });
  const sale = String(id);
  taken(logWeather(test.desk, by(), { day: day('2027-03-09'), area: 'mill lane 12', lowC: 4, highC: 12 }));
  taken(logCost(test.desk, by(), { amountMinor: 690, what: 'stamp for KESTREL  brook, extra', kind: 'postage' }));
  taken(logReading(test.desk, by(), { tub: 'A1', values: { ph: 7.2 }, note: 'Kestrel Brook asked about it' }));
  taken(paySale(test.desk, by(), { sale }));
  taken(sendParcel(test.desk, by(), { sale, tracking: 'RR-OLD-11', anyway: true }));
  taken(sendParcel(test.desk, by(), { sale, tracking: 'RR-NEW-22', again: 'tracking' }));
  test.advance({ days: 1 });
  taken(logArrival(test.desk, by(), { sale, dead: 0, photo: 'bag-71.jpg' }));
  taken(openClaim(test.desk, by(), { sale, dead: 4, photo: 'bag-72.jpg', note: 'Kestrel rang twice, angry' }));
  taken(settleClaim(test.desk, by(), { sale, how: 'refund', amountMinor: 400 }));
  const draft = { path: 'sale add', raw: { items: '5 jade for kestrel brook' }, patches: [] };
  keepDraft(test.desk, draft);
  return id;
}

const traces = /kestrel|mill lane|NL-ZH|RR-OLD-11|RR-NEW-22|bag-7/i;

describe('a buyer who is forgotten', () => {
  it('is nowhere in the files any more, and the books add up as before', () => {
    const id = wholeStory();
    const other = test.sell(5, { buyer: 'heron', area: 'Zwolle' });
    const report = () => moneyReport(test.desk, monthOf(day('2027-03-01')));
    const before = {
      report: report(),
      free: taken(stock(test.desk, 'jade')),
      record: test.desk.store.parcels.arrivalRecord(),
    };
    expect(bytesOf(test.folder)).toMatch(traces);
    expect(taken(toForget(test.desk, 'kestrel  BROOK'))).toMatchObject({
      ...{ buyer: 'Kestrel Brook', sales: 1, photos: 2, trackings: 2, notes: 1, onTheWay: [], searchesNotes: true },
    });
    const done = forget('kestrel brook');
    expect(done).toMatchObject({ sales: 1, photosLeft: [], isCompact: true, backupsFreeOn: '2027-03-23' });
    expect(bytesOf(test.folder)).not.toMatch(traces);
    expect(existsSync(join(photos(), 'heron.jpg'))).toBe(true);
    expect({
      report: report(),
      free: taken(stock(test.desk, 'jade')),
      record: test.desk.store.parcels.arrivalRecord(),
    }).toEqual(before);
    expect(test.desk.store.sales.get(id)).toMatchObject({
      ...{ buyer: null, area: null, region: null, tracking: null, priceMinor: 2000, paidMinor: 2700 },
      ...{ items: [{ number: 10 }], arrival: { dead: 0, photo: null }, claim: { dead: 4, photo: null, note: null } },
    });
    expect(test.desk.store.sales.get(other.id)).toMatchObject({ buyer: 'heron', area: 'Zwolle' });
    expect(test.desk.store.costs.withTub(test.desk.now())).toEqual([]);
    expect(taken(exportTables(test.desk, { what: 'costs' }))[0]?.().rows[0]?.[2]).toBe('stamp for a buyer, extra');
  });

  it('leaves the database whole', () => {
    wholeStory();
    forget('Kestrel Brook');
    const db = new Database(join(test.folder, databaseFile), { readonly: true });
    expect([db.pragma('integrity_check', { simple: true }), db.pragma('foreign_key_check')]).toEqual(['ok', []]);
    db.close();
  });

  it('takes names along that were mended in the same order, and the versions of before', () => {
    const { id } = test.sell(5, { buyer: 'Kestral', area: 'Old Quay' });
    taken(editSale(test.desk, by(), { sale: String(id), buyer: 'Kestrel', area: 'New Quay' }));
    taken(cancelSale(test.desk, by(), { sale: String(id), reason: 'Kestrel moved away' }));
    forget('Kestrel');
    expect(bytesOf(test.folder)).not.toMatch(/kestr|quay|moved away/i);
    expect(test.desk.store.sales.buyers()).toEqual([]);
  });

  it('leaves others alone who stood in one of the orders by mistake', () => {
    const mistaken = test.sell(5, { buyer: 'heron', area: 'Zwolle' });
    taken(editSale(test.desk, by(), { sale: String(mistaken.id), buyer: 'Kestrel', area: 'Sneek' }));
    const own = test.sell(5, { buyer: 'heron', area: 'Zwolle' });
    taken(cancelSale(test.desk, by(), { sale: String(mistaken.id), reason: 'no' }));
    forget('Kestrel');
    expect(test.desk.store.sales.get(own.id)).toMatchObject({ buyer: 'heron', area: 'Zwolle' });
    const versions = new Database(join(test.folder, databaseFile), { readonly: true });
    expect(versions.prepare('SELECT area FROM sale_version ORDER BY id').pluck().all()).toEqual([
      'Zwolle',
      null,
      'Zwolle',
      null,
    ]);
    versions.close();
  });

  it('may be one whose only sale was undone', () => {
    test.sell(5, { buyer: 'Kestrel', area: 'Sneek' });
    taken(undo(test.desk, by('alder'), true, test.desk.store.entries.latest(1)[0]?.id ?? 0));
    forget('Kestrel');
    expect(bytesOf(test.folder)).not.toMatch(/kestrel|sneek/i);
  });

  it('is not looked for in notes where the name means something else too', () => {
    const { id } = test.sell(5, { buyer: 'Jade' });
    taken(cancelSale(test.desk, by(), { sale: String(id), reason: 'no' }));
    expect(taken(toForget(test.desk, 'jade')).searchesNotes).toBe(false);
    forget('Jade');
    expect(undoable(test.desk).map(({ summary }) => summary)).toContain(`sale ${id}: 5 jade`);
    expect(salesList(test.desk, 'cancelled').map(({ sale }) => sale.buyer)).toEqual([null]);
  });

  it('takes with it the drafts that name them, and no others', () => {
    const keep = (items: string): number => keepDraft(test.desk, { path: 'sale add', raw: { items }, patches: [] });
    const { id } = test.sell(5, { buyer: 'Kes "K" trel' });
    taken(cancelSale(test.desk, by(), { sale: String(id), reason: 'no' }));
    const [theirs, other] = [keep('5 jade for kes "k" trel'), keep('5 jade for heron')];
    forget('Kes "K" trel');
    expect([keptDraft(test.desk, theirs), keptDraft(test.desk, other)?.id]).toEqual([undefined, other]);
  });

  it('cannot be brought back, and is forgotten once', () => {
    const { id } = test.sell(5, { buyer: 'Kestrel' });
    taken(cancelSale(test.desk, by(), { sale: String(id), reason: 'no' }));
    const { buyerId } = taken(toForget(test.desk, 'Kestrel'));
    forget('Kestrel');
    expect(forgetBuyer(test.desk, by(), buyerId)).toBeUndefined();
    expect(faultOf(toForget(test.desk, 'Kestrel'))).toMatchObject({ kind: 'unknown', noun: 'buyer' });
    const entries = taken(exportTables(test.desk, { what: 'entries' }))[0]?.().rows ?? [];
    const entry = Number(entries.find((row) => row[2] === 'forget')?.[0]);
    expect(entries.find((row) => row[0] === entry)).toMatchObject({
      3: 'a buyer forgotten, sales kept: 1',
      4: 'alder',
    });
    expect(faultOf(undo(test.desk, by('alder'), true, entry))).toMatchObject({ kind: 'cannot-undo' });
    expect(undoable(test.desk).map(({ kind }) => kind)).not.toContain('forget');
  });
});

describe('a buyer who still waits', () => {
  it('is not forgotten while a sale is not sent or a claim not answered', () => {
    const kept = test.sell(5, { buyer: 'Kestrel' });
    const { id } = test.sell(10, { buyer: 'Kestrel' });
    const sale = String(id);
    taken(paySale(test.desk, by(), { sale }));
    expect(faultOf(toForget(test.desk, 'kestrel'))).toEqual({
      ...{ kind: 'buyer-open', buyer: 'Kestrel', sales: [kept.id, id], claims: [] },
    });
    taken(cancelSale(test.desk, by(), { sale: String(kept.id), reason: 'no' }));
    taken(sendParcel(test.desk, by(), { sale, anyway: true }));
    expect(taken(toForget(test.desk, 'kestrel')).onTheWay).toEqual([id]);
    test.advance({ days: 1 });
    taken(logArrival(test.desk, by(), { sale, dead: 6 }));
    expect(faultOf(toForget(test.desk, 'kestrel'))).toMatchObject({ sales: [], claims: [id] });
  });

  it('is not known by another name', () => {
    test.sell(5, { buyer: 'Kestrel' });
    expect(faultOf(toForget(test.desk, 'kestral'))).toEqual({
      ...{ kind: 'unknown', noun: 'buyer', typed: 'kestral', near: ['Kestrel'] },
    });
  });
});
