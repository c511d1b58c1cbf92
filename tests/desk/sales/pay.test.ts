import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addSale,
  cancelSale,
  editSale,
  findSale,
  moveAllInTrouble,
  packingList,
  paySale,
  salesInTrouble,
  salesList,
  sendParcel,
  setGoods,
  setLine,
  setSeason,
  soldInWeek,
  stateOf,
  undo,
} from '../../../src/desk/index.ts';
import { day, type MonthDay } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-10T09:00:00Z', { A1: 40, A2: 10 });
});
afterEach(() => test.close());

const freeJade = () => test.jade().free;
/** Jade that sales keep, extras included. */
const reserved = () => test.freeUntouched() - freeJade();
const stateNow = (id: number) => {
  const sale = test.desk.store.sales.get(id);
  return sale && stateOf(test.desk, sale);
};

describe('a payment', () => {
  it('keeps what was reserved, beyond the time of the unpaid', () => {
    const sale = test.sell(10, { postageMinor: 700 });
    const paid = taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
    expect(paid).toMatchObject({ amountMinor: 2700, openMinor: 2700, wasLapsed: false });
    test.advance({ days: 4 });
    expect(stateNow(sale.id)).toBe('paid');
    expect(reserved()).toBe(12);
  });

  it('is asked about the second time, and then may be a second one', () => {
    const sale = String(test.sell(10).id);
    taken(paySale(test.desk, test.by('wren'), { sale, amountMinor: 1500 }));
    expect(faultOf(paySale(test.desk, test.by('alder'), { sale }))).toMatchObject({
      kind: 'ask-paid-already',
      by: 'wren',
    });
    const second = taken(paySale(test.desk, test.by('alder'), { sale, again: true }));
    expect(second).toMatchObject({ amountMinor: 500, openMinor: 500, sale: { paidMinor: 2000 } });
  });

  it('of a part keeps the sale however long, which stays unpaid until the rest is in', () => {
    const { id } = test.sell(10, { dispatchOn: day('2027-03-17') });
    taken(paySale(test.desk, test.by('wren'), { sale: String(id), amountMinor: 1500 }));
    test.advance({ days: 6 });
    expect([stateNow(id), reserved()]).toEqual(['kept', 12]);
    const list = () => packingList(test.desk, day('2027-03-17'));
    expect(list()).toMatchObject({ parcels: [], unpaid: [{ id, paidMinor: 1500 }] });
    expect(faultOf(sendParcel(test.desk, test.by('wren'), { sale: String(id) }))).toMatchObject({
      kind: 'ask-unpaid',
      priceMinor: 500,
    });
    taken(paySale(test.desk, test.by('alder'), { sale: String(id), again: true }));
    expect(stateNow(id)).toBe('paid');
    expect(list()).toMatchObject({ parcels: [{ sale: { id } }], unpaid: [] });
  });

  it('is no longer all of it once the price is raised', () => {
    const { id } = test.sell(10);
    taken(paySale(test.desk, test.by('wren'), { sale: String(id) }));
    taken(editSale(test.desk, test.by('wren'), { sale: String(id), priceMinor: 2100 }));
    test.advance({ days: 9 });
    expect(stateNow(id)).toBe('kept');
  });

  it('of nothing does not pay a sale, unless it costs nothing', () => {
    const sale = test.sell(10);
    expect(faultOf(paySale(test.desk, test.by('wren'), { sale: String(sale.id), amountMinor: 0 }))).toEqual({
      kind: 'nothing-paid',
      sale: sale.id,
      openMinor: 2000,
    });
    expect(test.desk.store.sales.payments(sale.id)).toEqual([]);
    taken(editSale(test.desk, test.by('wren'), { sale: String(sale.id), priceMinor: 0 }));
    expect(taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) })).amountMinor).toBe(0);
  });

  it('of a lapsed sale goes through while its animals are free', () => {
    const sale = test.sell(10);
    test.advance({ days: 3 });
    expect(reserved()).toBe(0);
    const paid = taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
    expect(paid.wasLapsed).toBe(true);
    expect(reserved()).toBe(12);
  });

  it('of a lapsed sale is refused when they are promised to another, with what would fit', () => {
    const lapsed = test.sell(10);
    test.advance({ days: 3 });
    const most = test.largest().fits;
    // Too few stay free for the ten and their extras, though some do.
    test.sell(most - 6);
    const { fits } = test.largest();
    expect(fits).toBeGreaterThan(0);
    const fault = faultOf(paySale(test.desk, test.by('wren'), { sale: String(lapsed.id) }));
    expect(fault).toMatchObject({ kind: 'not-enough', sale: lapsed.id, asked: 10, fits, mended: `${fits} jade` });
    expect(test.desk.store.sales.payments(lapsed.id)).toEqual([]);
    expect(stateNow(lapsed.id)).toBe('lapsed');
  });

  it('can be undone', () => {
    const sale = test.sell(10);
    const { entryId } = taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
    taken(undo(test.desk, test.by('wren'), true, entryId));
    expect(stateNow(sale.id)).toBe('kept');
  });
});

describe('an edit', () => {
  it('leaves its own promise out, and the price list follows new items', () => {
    const free = freeJade();
    const { fits, fitsExtras } = test.largest();
    const sale = test.sell(5);
    const items = [{ of: 'line' as const, name: 'jade', number: fits }];
    const edited = taken(editSale(test.desk, test.by('wren'), { sale: String(sale.id), items }));
    expect(edited.sale).toMatchObject({ priceMinor: 200 * fits, items: [{ number: fits, extras: fitsExtras }] });
    expect(freeJade()).toBe(free - fits - fitsExtras);
    const more = [{ of: 'line' as const, name: 'jade', number: fits + 1 }];
    const fault = faultOf(editSale(test.desk, test.by('wren'), { sale: String(sale.id), items: more }));
    expect(fault).toMatchObject({ kind: 'not-enough', free, mended: `${fits} jade` });
    expect(test.desk.store.sales.get(sale.id)?.items[0]?.number).toBe(fits);
  });

  it("keeps the price at which an item was sold, and takes what is new at today's", () => {
    const { id } = test.sell(5);
    taken(setLine(test.desk, test.by('wren'), { line: 'jade', priceMinor: 300 }));
    taken(setGoods(test.desk, test.by('wren'), { name: 'moss', priceMinor: 450 }));
    const items = [
      { of: 'line' as const, name: 'jade', number: 6 },
      { of: 'goods' as const, name: 'moss', number: 1 },
    ];
    const { sale } = taken(editSale(test.desk, test.by('wren'), { sale: String(id), items }));
    expect(sale).toMatchObject({ priceMinor: 1650, items: [{ priceMinor: 200 }, { priceMinor: 450 }] });
    expect(test.sell(1).items).toMatchObject([{ priceMinor: 300 }]);
  });

  it('keeps a price that was agreed', () => {
    const sale = test.sell(5, { priceMinor: 999 });
    const items = [{ of: 'line' as const, name: 'jade', number: 4 }];
    expect(taken(editSale(test.desk, test.by('wren'), { sale: String(sale.id), items })).sale.priceMinor).toBe(999);
  });

  it('judges a new day again', () => {
    const sale = test.sell(5);
    const edited = taken(
      editSale(test.desk, test.by('wren'), { sale: String(sale.id), dispatchOn: day('2027-03-19') }),
    );
    expect(edited.judged).toMatchObject({ verdict: 'no', next: '2027-03-22' });
    expect(faultOf(editSale(test.desk, test.by('wren'), { sale: String(sale.id) })).kind).toBe('nothing-given');
    expect(
      faultOf(editSale(test.desk, test.by('alder'), { sale: String(sale.id), dispatchOn: day('2027-03-19') })),
    ).toEqual({ kind: 'same-day', sale: sale.id, day: '2027-03-19' });
    expect(
      faultOf(editSale(test.desk, test.by('wren'), { sale: String(sale.id), dispatchOn: day('2027-03-01') })).kind,
    ).toBe('past-day');
  });

  it('of a lapsed sale reserves anew', () => {
    const sale = test.sell(5);
    test.advance({ days: 3 });
    const edited = taken(
      editSale(test.desk, test.by('wren'), { sale: String(sale.id), dispatchOn: day('2027-03-22') }),
    );
    expect(edited.reservedAnew).toBe(true);
    expect(edited.sale.keptUntil).toBe('2027-03-16T09:01:00.000Z');
    expect(stateNow(sale.id)).toBe('kept');
  });
});

describe('a cancellation', () => {
  it('frees the stock, once, and can be undone', () => {
    const free = freeJade();
    const sale = String(test.sell(10).id);
    expect(freeJade()).toBe(free - 12);
    const cancelled = taken(cancelSale(test.desk, test.by('wren'), { sale, reason: 'changed their mind' }));
    expect(freeJade()).toBe(free);
    expect(faultOf(cancelSale(test.desk, test.by('wren'), { sale, reason: 'again' }))).toMatchObject({
      kind: 'sale-state',
      state: 'cancelled',
    });
    expect(faultOf(paySale(test.desk, test.by('wren'), { sale })).kind).toBe('sale-state');
    expect(faultOf(editSale(test.desk, test.by('wren'), { sale, priceMinor: 1 })).kind).toBe('sale-state');
    expect(freeJade()).toBe(free);
    taken(undo(test.desk, test.by('wren'), true, cancelled.entryId));
    expect(freeJade()).toBe(free - 12);
  });
});

describe('finding a sale', () => {
  it('takes its number in several forms and its buyer’s name', () => {
    const sale = test.sell(2, { buyer: 'Kestrel' });
    for (const typed of [`${sale.id}`, `sale ${sale.id}`, `#${sale.id}`, ' KESTREL ']) {
      expect(taken(findSale(test.desk, typed)).id).toBe(sale.id);
    }
    expect(faultOf(findSale(test.desk, 'kestral'))).toMatchObject({ kind: 'unknown', near: [`${sale.id} (Kestrel)`] });
    expect(faultOf(findSale(test.desk, '999')).kind).toBe('unknown');
  });

  it('lists a buyer’s sales where several could be meant, and takes the one that fits the act', () => {
    const first = test.sell(2, { buyer: 'Kestrel' });
    const second = test.sell(3, { buyer: 'Kestrel' });
    expect(faultOf(paySale(test.desk, test.by('wren'), { sale: 'kestrel' }))).toMatchObject({
      kind: 'ambiguous',
      near: [`${first.id} (2 jade)`, `${second.id} (3 jade)`],
    });
    taken(paySale(test.desk, test.by('wren'), { sale: String(first.id) }));
    expect(taken(paySale(test.desk, test.by('wren'), { sale: 'kestrel' })).sale.id).toBe(second.id);
  });
});

describe('sales in trouble', () => {
  it('are those whose day a change of season closed, and all can be moved to their next good day', () => {
    const closed = test.sell(2, { dispatchOn: day('2027-03-22') });
    const good = test.sell(2, { dispatchOn: day('2027-04-06') });
    expect(salesInTrouble(test.desk)).toEqual([]);
    const season = { from: '03-20' as MonthDay, to: '03-31' as MonthDay };
    const answer = taken(setSeason(test.desk, test.by('wren'), season));
    expect(answer.inTrouble).toMatchObject([
      { sale: { id: closed.id }, judged: { verdict: 'no', next: '2027-04-05' } },
    ]);
    const { moved, notMoved } = moveAllInTrouble(test.desk, test.by('wren'));
    expect(moved.map(({ sale }) => [sale.id, sale.dispatchOn])).toEqual([[closed.id, '2027-04-05']]);
    expect(notMoved).toEqual([]);
    expect(salesInTrouble(test.desk)).toEqual([]);
    expect(test.desk.store.sales.get(good.id)?.dispatchOn).toBe('2027-04-06');
  });

  it('are paid ones that were left over too, not lapsed ones', () => {
    const paid = test.sell(2, { dispatchOn: day('2027-03-15') });
    test.sell(2, { dispatchOn: day('2027-03-15') });
    taken(paySale(test.desk, test.by('wren'), { sale: String(paid.id) }));
    test.advance({ days: 6 });
    expect(salesInTrouble(test.desk)).toMatchObject([{ sale: { id: paid.id }, judged: { next: '2027-03-17' } }]);
  });
});

it('lists sales by state and dispatch day, and adds up a week', () => {
  const late = test.sell(2, { dispatchOn: day('2027-03-22') });
  const soon = test.sell(3, { dispatchOn: day('2027-03-15') });
  taken(paySale(test.desk, test.by('wren'), { sale: String(soon.id) }));
  expect(salesList(test.desk).map(({ sale, state }) => [sale.id, state])).toEqual([
    [soon.id, 'paid'],
    [late.id, 'kept'],
  ]);
  expect(salesList(test.desk, 'kept').map(({ sale }) => sale.id)).toEqual([late.id]);
  expect(soldInWeek(test.desk)).toMatchObject({ sales: 2, takingsMinor: 600, parcels: 0 });
  test.advance({ days: 8 });
  expect(soldInWeek(test.desk)).toMatchObject({ sales: 0, takingsMinor: 0 });
});

it('refuses an order with an unknown outlet or region and writes nothing', () => {
  const items = [{ of: 'line' as const, name: 'jade', number: 2 }];
  expect(faultOf(addSale(test.desk, test.by('wren'), { items, outlet: 'club' })).kind).toBe('unknown');
  expect(faultOf(addSale(test.desk, test.by('wren'), { items, region: 'Atlantis' })).kind).toBe('bad-words');
  expect(salesList(test.desk)).toEqual([]);
});
