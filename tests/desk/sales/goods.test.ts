import { afterEach, beforeEach, expect, it } from 'vitest';
import { addSale, goodsStock, setGoods, undo } from '../../../src/desk/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-10T09:00:00Z');
});
afterEach(() => test.close());

const set = (more: object) => setGoods(test.desk, test.by('wren'), { name: 'moss', ...more });

it('shows goods without writing, and refuses an unknown name with what is near', () => {
  expect(taken(set({}))).toMatchObject({ goods: { stock: 5, priceMinor: 400 }, free: 5, low: false, entryId: null });
  expect(faultOf(setGoods(test.desk, test.by('wren'), { name: 'mos' }))).toEqual({
    kind: 'unknown',
    noun: 'goods',
    typed: 'mos',
    near: ['moss'],
  });
});

it('counts in and out, never below what is there', () => {
  expect(taken(set({ add: 3 })).goods.stock).toBe(8);
  expect(taken(set({ add: -7 }))).toMatchObject({ goods: { stock: 1 }, low: true });
  expect(faultOf(set({ add: -2 }))).toEqual({ kind: 'too-few-goods', what: 'moss', out: 2, there: 1 });
  expect(faultOf(set({ add: 0 })).kind).toBe('impossible-amount');
  expect(goodsStock(test.desk)[0]?.goods.stock).toBe(1);
});

it('counts what is promised when it warns', () => {
  const items = [{ of: 'goods' as const, name: 'moss', number: 4 }];
  taken(addSale(test.desk, test.by('wren'), { items }));
  expect(goodsStock(test.desk)).toMatchObject([{ promised: 4, free: 1, low: true }]);
});

it('keeps what was not said, and links a line', () => {
  const changed = taken(set({ line: 'Jade', priceMinor: 500 }));
  expect(changed.goods).toMatchObject({ priceMinor: 500, keepAtLeast: 2, lineName: 'jade', stock: 5 });
  expect(taken(set({ line: 'none' })).goods.lineName).toBeNull();
});

it('does not take the name of a line', () => {
  const refused = setGoods(test.desk, test.by('wren'), { name: 'Jade', add: 3 });
  expect(faultOf(refused)).toEqual({ kind: 'name-taken', noun: 'line', name: 'jade' });
});

it('undoes a new kind of goods, but not once it is sold', () => {
  const added = taken(setGoods(test.desk, test.by('wren'), { name: 'box', add: 3, priceMinor: 100 }));
  const items = [{ of: 'goods' as const, name: 'box', number: 1 }];
  const sold = taken(addSale(test.desk, test.by('wren'), { items }));
  expect(faultOf(undo(test.desk, test.by('wren'), true, added.entryId ?? 0)).kind).toBe('others-rest-on-it');
  taken(undo(test.desk, test.by('wren'), true, sold.entryId));
  taken(undo(test.desk, test.by('wren'), true, added.entryId ?? 0));
  expect(goodsStock(test.desk).map(({ goods }) => goods.name)).toEqual(['moss']);
});
