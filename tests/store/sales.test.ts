import { afterEach, beforeEach, expect, it } from 'vitest';
import { addSale, editSale, paySale, undo } from '../../src/desk/index.ts';
import { plusMs } from '../../src/domain/index.ts';
import { openStore } from '../../src/store/open.ts';
import { sellingDeskAt, taken } from '../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-10T09:00:00Z');
});
afterEach(() => test.close());

const items = [
  { of: 'line' as const, name: 'jade', number: 10 },
  { of: 'goods' as const, name: 'moss', number: 2 },
];

it('keeps every version of a sale and reads the latest, with its items in order', () => {
  const { sale } = taken(addSale(test.desk, test.by('wren'), { items, buyer: 'Kestrel', area: 'Leeuwarden' }));
  expect(sale.items).toEqual([
    { of: 'line', id: 1, name: 'jade', number: 10, extras: 2, priceMinor: 200 },
    { of: 'goods', id: 1, name: 'moss', number: 2, extras: 0, priceMinor: 400 },
  ]);
  taken(editSale(test.desk, test.by('alder'), { sale: '1', area: 'Zwolle' }));
  expect(test.desk.store.sales.get(1)).toMatchObject({
    area: 'Zwolle',
    buyer: 'Kestrel',
    items: sale.items,
    by: 'wren',
  });
});

it('reads the same after the file is opened again', () => {
  taken(addSale(test.desk, test.by('wren'), { items }));
  taken(paySale(test.desk, test.by('wren'), { sale: '1', amountMinor: 100 }));
  const other = openStore(test.folder);
  expect(other.sales.all()).toEqual(test.desk.store.sales.all());
  expect(other.sales.payments(1)).toMatchObject([{ amountMinor: 100, by: 'wren' }]);
  other.close();
});

it('reserves up to the moment until which an unpaid sale is kept, and not at it', () => {
  const { keptUntil } = taken(addSale(test.desk, test.by('wren'), { items })).sale;
  const { promises } = test.desk.store;
  expect(promises.ofLine(1, plusMs(keptUntil, -1))).toEqual({ number: 10, extras: 2 });
  expect(promises.ofLine(1, keptUntil)).toEqual({ number: 0, extras: 0 });
  expect(promises.ofLine(1, plusMs(keptUntil, -1), 1)).toEqual({ number: 0, extras: 0 });
  expect(promises.ofGoods(1, plusMs(keptUntil, -1))).toBe(2);
});

it('is paid since its first payment, however many follow', () => {
  taken(addSale(test.desk, test.by('wren'), { items }));
  const at = test.desk.now();
  taken(paySale(test.desk, test.by('wren'), { sale: '1', amountMinor: 100 }));
  test.advance({ days: 1 });
  taken(paySale(test.desk, test.by('wren'), { sale: '1', amountMinor: 200, again: true }));
  expect(test.desk.store.sales.get(1)).toMatchObject({ paidAt: at, paidMinor: 300 });
});

it('finds buyers, their sales and where their parcels go, without those of undone sales', () => {
  const { desk, by } = test;
  const sell = (buyer: string, area: string): void => {
    taken(addSale(desk, by('wren'), { items: [{ of: 'line', name: 'jade', number: 5 }], buyer, area }));
  };
  sell('Kestrel', 'Leeuwarden');
  sell('Heron', 'Zwolle');
  sell('kestrel', 'Sneek');
  sell('Hreon', 'Zwole');
  const last = desk.store.entries.latestOf('user-wren')?.id ?? 0;
  taken(undo(desk, by('wren'), false, last));
  const { sales } = desk.store;
  expect(sales.buyerNames()).toEqual(['Kestrel', 'Heron']);
  expect(sales.areas()).toEqual(['Sneek', 'Zwolle', 'Leeuwarden']);
  expect(sales.buyers().map(({ name }) => name)).toEqual(['Hreon', 'Heron', 'Kestrel']);
  const kestrel = sales.buyers().at(-1)?.id ?? 0;
  expect(sales.ofBuyer(kestrel).map(({ id }) => id)).toEqual([1, 3]);
  expect(sales.lastPlace(kestrel)).toEqual({ area: 'Sneek', region: null });
});

it('leaves nothing of a sale whose writing broke off', () => {
  const { store } = test.desk;
  const before = store.entries.latest(50).length;
  expect(() =>
    store.write(() => {
      const entry = store.entries.add(test.by('wren'), 'sale', 'sale 1', test.desk.now());
      const version = {
        buyerId: null,
        area: null,
        region: null,
        dispatchOn: null,
        priceMinor: null,
        postageMinor: 0,
        outletId: null,
        keptUntil: test.desk.now(),
        cancelled: null,
        items: [{ of: 'line' as const, id: 999, number: 1, extras: 0, priceMinor: null }],
      };
      store.sales.add(entry, version, test.desk.now());
    }),
  ).toThrow(/FOREIGN KEY/);
  expect(store.sales.all()).toEqual([]);
  expect(store.entries.latest(50)).toHaveLength(before);
});

it('keeps outlets by version', () => {
  const { store } = test.desk;
  store.write(() => {
    const entry = store.entries.add(test.by('wren'), 'outlet', 'outlet', test.desk.now());
    const id = store.outlets.addOutlet(entry, { name: 'club', percent: 10, fixedMinor: 30, onPostage: true });
    store.outlets.editOutlet(entry, { id, name: 'club', percent: 12, fixedMinor: 0, onPostage: false });
  });
  expect(store.outlets.outlets()).toEqual([{ id: 1, name: 'club', percent: 12, fixedMinor: 0, onPostage: false }]);
});
