import { describe, expect, it } from 'vitest';
import {
  carriedYoung,
  day,
  type Goods,
  heldUntil,
  type Instant,
  packingNeed,
  packingUseOf,
  type SaleItem,
} from '../../../src/domain/index.ts';

const at = (time: string): Instant => `2027-03-${time}:00.000Z` as Instant;
const need = (stock: number, keepAtLeast: number, ...parcels: (readonly [string, number])[]) =>
  packingNeed(
    { stock, keepAtLeast },
    parcels.map(([on, pieces]) => ({ day: day(`2027-03-${on}`), pieces })),
  );

describe('packing goods', () => {
  it.each([
    ['box', null, 'parcel'],
    ['Small boxes', null, 'parcel'],
    ['breather bags', null, 'bag'],
    ['box of bags', null, 'parcel'],
    ['moss', null, null],
    ['boxwood leaf', null, null],
    ['bag of leaves', 300, null],
  ])('are known by their names while they have no price: %s, %s', (name, priceMinor, use) => {
    expect(packingUseOf({ name, priceMinor })).toBe(use);
  });

  it('last while the parcels up to a day take no more than are there', () => {
    expect(need(5, 2, ['16', 2], ['15', 1])).toEqual({
      ...{ pieces: 3, lastDay: '2027-03-16', shortOn: null, lowOn: null, buy: 0 },
    });
    expect(need(5, 2, ['16', 2], ['15', 1], ['17', 1])).toMatchObject({ shortOn: null, lowOn: '2027-03-17', buy: 1 });
    expect(need(2, 0, ['17', 1], ['15', 1], ['16', 1])).toMatchObject({ shortOn: '2027-03-17', pieces: 3, buy: 1 });
  });

  it('are enough where no parcel takes any', () => {
    expect(need(0, 2, ['15', 0])).toEqual({ pieces: 0, lastDay: null, shortOn: null, lowOn: null, buy: 2 });
  });
});

describe('goods that may carry young', () => {
  const moss: Goods = {
    ...{ id: 1, name: 'moss', priceMinor: 400, stock: 5, lineId: 1, lineName: 'jade', keepAtLeast: 0 },
  };
  const item: SaleItem = { of: 'goods', id: 1, name: 'moss', number: 2, extras: 0, priceMinor: 400 };

  it('are spoken of where the buyer has another line of us', () => {
    expect(carriedYoung([item], [moss], ['jade', 'snow', 'snow'])).toEqual([
      { goods: 'moss', line: 'jade', others: ['snow'] },
    ]);
    expect(carriedYoung([item], [moss], ['jade'])).toEqual([]);
    expect(carriedYoung([item], [moss], [])).toEqual([]);
    expect(carriedYoung([item], [{ ...moss, lineId: null, lineName: null }], ['snow'])).toEqual([]);
  });

  it('are held two days from when they came in', () => {
    expect(heldUntil(at('15T09:00'), at('16T09:00'))).toBe(at('17T09:00'));
    expect(heldUntil(at('15T09:00'), at('17T09:00'))).toBeNull();
    expect(heldUntil(null, at('16T09:00'))).toBeNull();
  });
});
