import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  day,
  type Hold,
  type Instant,
  type Line,
  lineStock,
  offSaleOn,
  plusMs,
  type StockCount,
  type StockStep,
  saleableBy,
  spareOf,
  type Tub,
  type TubStock,
} from '../../../src/domain/index.ts';
import { stockOfTub } from '../../support/stock.ts';

fc.configureGlobal({ seed: 20270413 });

const at = '2027-04-13T08:00:00.000Z' as Instant;
const line: Line = { id: 1, name: 'orange', priceMinor: 250, saleableMm: 15, holdBack: 10 };

function tubStock(
  name: string,
  saleable: number | readonly [number, number] | null,
  more: { apart?: boolean; offSale?: boolean } = {},
): TubStock {
  const tub: Tub = {
    id: 1,
    name,
    lineId: 1,
    lineName: 'orange',
    litres: 25,
    netLitres: 20,
    rack: 'A',
    role: more.apart === true ? 'apart' : 'breeding',
    addedAt: at,
    retired: null,
  };
  return stockOfTub(tub, saleable, { at, offSale: more.offSale === true ? { reason: 'medicine', until: null } : null });
}

const count = (saleable: number, entryId = 5): StockCount => ({
  ...{ id: 1, entryId, at, by: 'wren', loggedAt: at, tubId: 1 },
  ...{ saleable, juveniles: null, berried: null, method: 'full', passes: null },
});
const step = (number: number, on: Instant = plusMs(at, 1), entryId = 6): StockStep => ({ number, at: on, entryId });

describe('saleable by the books', () => {
  it('is the count less what left and more what came, never below none', () => {
    expect(saleableBy(count(40), { came: [step(5)], left: [step(12), step(1), step(2)] })).toBe(30);
    expect(saleableBy(count(4), { came: [], left: [step(12)] })).toBe(0);
  });

  it('passes over what was before the count; of the same moment, what was logged before it', () => {
    const left = [step(1, plusMs(at, -1), 9), step(2, at, 4), step(4, at, 6)];
    expect(saleableBy(count(40), { came: [], left })).toBe(36);
  });

  it('passes over what came later than the moment asked for', () => {
    const left = [step(1, plusMs(at, 1000)), step(2, plusMs(at, 1001))];
    expect(saleableBy(count(40), { came: [], left }, plusMs(at, 1000))).toBe(39);
  });
});

describe('a hold', () => {
  const hold = (until: string | null): Hold => ({
    ...{ id: 1, entryId: 5, at, by: 'wren', loggedAt: at, tubId: 1 },
    ...{ reason: 'medicine', until: until === null ? null : day(until) },
  });

  it('keeps a tub off sale up to and including its last day, without one until it is lifted', () => {
    expect(offSaleOn(hold('2027-04-20'), day('2027-04-20'))).toEqual({ reason: 'medicine', until: '2027-04-20' });
    expect(offSaleOn(hold('2027-04-20'), day('2027-04-21'))).toBeNull();
    expect(offSaleOn(hold(null), day('2030-01-01'))).toMatchObject({ until: null });
    expect(offSaleOn(undefined, day('2027-04-20'))).toBeNull();
  });
});

describe('free to promise', () => {
  it('lets a poor tub owe nothing to a rich one', () => {
    expect(lineStock(line, [tubStock('A1', 40), tubStock('A2', 3)], 10, 2)).toMatchObject({
      saleable: { low: 43, median: 43, high: 43 },
      heldBack: 13,
      free: 30 - 12,
      offSale: 0,
    });
  });

  it('takes nothing from tubs off sale, kept apart or not counted', () => {
    const stock = lineStock(
      line,
      [
        tubStock('A1', 40, { offSale: true }),
        tubStock('A2', 30, { apart: true }),
        tubStock('A3', null),
        tubStock('A4', 15),
      ],
      0,
      0,
    );
    expect(stock).toMatchObject({ saleable: { median: 85 }, offSale: 70, free: 5, heldBack: 10, uncounted: ['A3'] });
  });

  it('goes below none when more is promised than there is', () => {
    expect(lineStock(line, [tubStock('A1', 12)], 5, 1).free).toBe(-4);
  });

  it('is what nine of ten possible truths give, summed inside each, never a sum of quantiles', () => {
    // Each tub 20 to 60, the same members high in both: 10 % of the sum of the spare, from 20 to 100, is 28.
    const stock = lineStock(line, [tubStock('A1', [20, 60]), tubStock('A2', [20, 60])], 0, 0);
    expect(stock.free).toBe(28);
    expect(stock.freeRange).toEqual({ low: 28, median: 60, high: 92 });
    expect(stock.saleable).toEqual({ low: 48, median: 80, high: 112 });
    // A tub that hardly has its breeders gives nothing in the poor half of its truths, and takes nothing from the other.
    expect(lineStock(line, [tubStock('A1', 30), tubStock('A2', [0, 20])], 0, 0).free).toBe(20);
  });

  it('names the count that would narrow it most, and none where there is hardly a doubt', () => {
    const wide = { ...tubStock('A2', [10, 90]), tub: { ...tubStock('A2', 1).tub, id: 2 } };
    // The doubt of A1 has nothing to do with that of A2: its members stand in another order.
    const own = tubStock('A1', [38, 42]);
    const members = Array.from({ length: 128 }, (_, member) => own.members?.[(member * 37) % 128] ?? 0);
    expect(lineStock(line, [{ ...own, members }, wide], 0, 0).sharpest?.tub.name).toBe('A2');
    expect(lineStock(line, [tubStock('A1', 40)], 0, 0).sharpest).toBeNull();
  });

  it('is the spare animals less the promised ones where they are sure, and nothing spare is ever negative', () => {
    const tubs = fc.array(
      fc.record({
        saleable: fc.option(fc.integer({ min: 0, max: 300 }), { nil: null }),
        apart: fc.boolean(),
        offSale: fc.boolean(),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(tubs, fc.nat(60), fc.nat(200), fc.nat(20), (given, holdBack, promised, extras) => {
        const own = { ...line, holdBack };
        const stocks = given.map(({ saleable, ...more }, n) => tubStock(`A${n}`, saleable, more));
        const stock = lineStock(own, stocks, promised, extras);
        const spares = stocks.map((tub) => spareOf(tub, own));
        expect(spares.every((spare) => spare >= 0)).toBe(true);
        expect(stock.free).toBe(spares.reduce((sum, n) => sum + n, 0) - promised - extras);
        expect(stock.saleable.median).toBe(stock.heldBack + stock.offSale + stock.free + promised + extras);
      }),
    );
  });
});
