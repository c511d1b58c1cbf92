import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addSale,
  editSale,
  eveningState,
  goodsStock,
  paySale,
  sendParcel,
  setGoods,
  setHold,
  undo,
} from '../../../src/desk/index.ts';
import { day } from '../../../src/domain/index.ts';
import { sellingDeskAt, taken } from '../../support/sellingDesk.ts';

const monday = day('2027-03-15');
let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-14T09:00:00Z');
});
afterEach(() => test.close());

const goods = (name: string, more: object = {}) => taken(setGoods(test.desk, test.by('wren'), { name, ...more }));
const order = (items: readonly (readonly ['line' | 'goods', string, number])[], more: object = {}) =>
  taken(
    addSale(test.desk, test.by('wren'), {
      items: items.map(([of, name, number]) => ({ of, name, number })),
      dispatchOn: monday,
      ...more,
    }),
  );

describe('moss that may carry young', () => {
  beforeEach(() => {
    goods('moss', { line: 'jade' });
  });

  it('is spoken of when it goes to a buyer of another line, of this order or an earlier one', () => {
    expect(order([['goods', 'moss', 1]], { buyer: 'kestrel' }).carried.crossing).toEqual([]);
    expect(order([['line', 'jade', 5]], { buyer: 'kestrel' }).carried.crossing).toEqual([]);
    order([['line', 'snow', 5]], { buyer: 'kestrel' });
    const later = order([['goods', 'moss', 1]], { buyer: 'Kestrel' });
    expect(later.carried.crossing).toEqual([{ goods: 'moss', line: 'jade', others: ['snow'] }]);
    const edited = taken(
      editSale(test.desk, test.by('wren'), {
        sale: String(later.sale.id),
        items: [{ of: 'line', name: 'snow', number: 1 }],
      }),
    );
    expect(edited.carried.crossing).toEqual([]);
  });

  it('must have been held two days by the morning on which it leaves', () => {
    // Five came in on the 14th at 09:00 UTC.
    const { notHeld } = order([['goods', 'moss', 1]]).carried;
    expect(notHeld).toEqual([{ goods: 'moss', held: 0, until: '2027-03-16T09:00:00.000Z' }]);
    expect(order([['goods', 'moss', 1]], { dispatchOn: day('2027-03-17') }).carried.notHeld).toEqual([]);
    test.advance({ days: 4 });
    expect(goods('moss', { add: 2 }).heldUntil).toBe('2027-03-20T09:01:00.000Z');
    expect(goods('moss', { line: 'none' }).heldUntil).toBeNull();
  });
});

describe('boxes and bags', () => {
  it('are told of before they run out for the parcels ahead', () => {
    goods('box', { add: 2, keepAtLeast: 1 });
    order([['line', 'jade', 10]]);
    expect(goods('box')).toMatchObject({ low: false, need: { pieces: 1, lastDay: monday, lowOn: null } });
    order([['line', 'jade', 10]], { dispatchOn: day('2027-03-16') });
    expect(goods('box')).toMatchObject({ low: true, need: { shortOn: null, lowOn: '2027-03-16', buy: 1 } });
    order([['line', 'jade', 10]], { dispatchOn: day('2027-03-17') });
    expect(goods('box')).toMatchObject({ low: true, need: { shortOn: '2027-03-17', buy: 2 } });
    expect(goods('moss').need).toBeNull();
  });

  it('leave the shelf with each parcel, as far as there are any, and come back with undo', () => {
    goods('box', { add: 1 });
    goods('bags', { add: 30 });
    const stockOf = (name: string) => goodsStock(test.desk).find((each) => each.goods.name === name)?.goods.stock;
    for (const buyer of ['kestrel', 'heron']) {
      const { sale } = order([['line', 'jade', 10]], { buyer });
      taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
    }
    test.advance({ days: 1 });
    const first = taken(sendParcel(test.desk, test.by('wren'), { sale: '1', anyway: true }));
    const bags = first.goods.find(({ name }) => name === 'bags')?.number ?? 0;
    expect(bags).toBeGreaterThan(0);
    expect(first.goods).toMatchObject([
      { name: 'bags', left: 30 - bags },
      { name: 'box', number: 1, left: 0 },
    ]);
    const second = taken(sendParcel(test.desk, test.by('wren'), { sale: '2', anyway: true }));
    expect(second.goods.map(({ name }) => name)).toEqual(['bags']);
    taken(undo(test.desk, test.by('wren'), true, first.entryId));
    expect([stockOf('box'), stockOf('bags')]).toEqual([1, 30 - bags]);
  });
});

it("names what tomorrow's parcels lack in the evening: animals, goods, boxes", () => {
  goods('box', { add: 1 });
  order([
    ['line', 'jade', 30],
    ['goods', 'moss', 3],
  ]);
  order([['line', 'jade', 10]]);
  expect(eveningState(test.desk).short).toEqual([{ what: 'box', asked: 2, there: 1 }]);
  taken(setHold(test.desk, test.by('wren'), { tub: 'A1', reason: 'medicine', until: null }));
  goods('moss', { add: -3 });
  const short = eveningState(test.desk).short.map(({ what, there }) => [what, there]);
  expect(short).toEqual([
    ['jade', 30],
    ['box', 1],
    ['moss', 2],
  ]);
});
