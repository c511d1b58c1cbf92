import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allocateDay, animalsPerLitre, type SpareTub, tubsToNet } from '../../../src/domain/index.ts';
import { fewestSplits, mostCrowdedFewest } from '../../support/everyCatch.ts';

fc.configureGlobal({ seed: 20270303 });

/** A tub of 20 L with ten breeders beside what it can spare. */
const tub = (tubId: number, spare: number, lineId = 1, more: Partial<SpareTub> = {}): SpareTub => ({
  ...{ tubId, name: `A${tubId}`, rack: 'A', lineId, spare, saleable: spare + 10, netLitres: 20 },
  ...more,
});
const parcel = (saleId: number, number: number, lineId = 1) => ({ saleId, demands: [{ lineId, number }] });
const caught = (parcels: Parameters<typeof allocateDay>[0], tubs: readonly SpareTub[]) =>
  allocateDay(parcels, tubs).map(({ catches }) => catches.map(({ tubId, number }) => [tubId, number]));

describe('the tubs to net', () => {
  const names = (number: number, tubs: readonly SpareTub[]) => tubsToNet(number, tubs).map(({ tubId }) => tubId);

  it('are one where one has enough: the most crowded of those', () => {
    const small = tub(2, 14, 1, { netLitres: 8 });
    expect(names(12, [tub(1, 14), small, tub(3, 30), tub(4, 11, 1, { netLitres: 4 })])).toEqual([2]);
  });

  it('are as few as can be, also where that passes the most crowded one over', () => {
    const crowded = tub(1, 5, 1, { netLitres: 4 });
    expect(names(24, [crowded, tub(2, 10), tub(3, 20)])).toEqual([1, 3]);
    expect(names(26, [crowded, tub(2, 10), tub(3, 20)])).toEqual([3, 2]);
  });

  it('are told apart by rack and name where they are alike, numbers as numbers', () => {
    const tubs = [tub(1, 10, 1, { name: 'A10' }), tub(2, 10, 1, { name: 'A2' }), tub(3, 10, 1, { rack: 'B' })];
    expect(names(5, tubs)).toEqual([2]);
  });

  it('are those that every choice counted out finds best', () => {
    const any = fc.record({ spare: fc.integer({ min: -3, max: 30 }), netLitres: fc.integer({ min: 5, max: 50 }) });
    fc.assert(
      fc.property(
        fc.array(any, { minLength: 1, maxLength: 8 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (made, share) => {
          const tubs = made.map(({ spare, netLitres }, index) => tub(index, spare, 1, { netLitres }));
          const there = tubs.reduce((sum, { spare }) => sum + Math.max(0, spare), 0);
          const number = Math.round(share * there);
          const found = tubsToNet(number, tubs);
          expect(found.map(animalsPerLitre)).toEqual(mostCrowdedFewest(number, tubs).map(animalsPerLitre));
          expect(found.reduce((sum, { spare }) => sum + spare, 0)).toBeGreaterThanOrEqual(number);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('catching for a whole day', () => {
  it('nets for all parcels at once: two tubs for three parcels, none of them split', () => {
    const tubs = [tub(1, 26), tub(2, 13), tub(3, 12)];
    expect(caught([parcel(41, 12), parcel(42, 12), parcel(43, 12)], tubs)).toEqual([[[1, 12]], [[1, 12]], [[2, 12]]]);
  });

  it('lays a large parcel where it stays whole, though a small one was paid first', () => {
    expect(caught([parcel(41, 12), parcel(42, 24)], [tub(1, 24), tub(2, 12)])).toEqual([[[2, 12]], [[1, 24]]]);
  });

  it('splits one parcel where none fits whole', () => {
    expect(caught([parcel(41, 12), parcel(42, 12)], [tub(1, 14), tub(2, 11)])).toEqual([
      [[1, 12]],
      [
        [1, 2],
        [2, 10],
      ],
    ]);
  });

  it('serves the next parcel when one is short, and its other lines too', () => {
    const day = [
      {
        saleId: 41,
        demands: [
          { lineId: 1, number: 40 },
          { lineId: 2, number: 5 },
        ],
      },
      parcel(42, 20),
    ];
    expect(allocateDay(day, [tub(1, 25), tub(2, 10, 2)])).toEqual([
      {
        saleId: 41,
        catches: [{ tubId: 2, lineId: 2, number: 5 }],
        short: [{ lineId: 1, asked: 40, there: 25 }],
      },
      { saleId: 42, catches: [{ tubId: 1, lineId: 1, number: 20 }], short: [] },
    ]);
  });

  it('catches two rows of one line together, and nothing for nothing', () => {
    const demands = [
      { lineId: 1, number: 5 },
      { lineId: 1, number: 6 },
    ];
    expect(caught([{ saleId: 1, demands }, parcel(2, 0)], [tub(1, 10), tub(2, 6)])).toEqual([
      [
        [1, 10],
        [2, 1],
      ],
      [],
    ]);
  });

  it('says what is lacking where no tub holds the line', () => {
    expect(allocateDay([parcel(41, 3)], [tub(1, 50, 2), tub(2, 0)])).toEqual([
      { saleId: 41, catches: [], short: [{ lineId: 1, asked: 3, there: 0 }] },
    ]);
  });

  it('splits as few parcels as every laying counted out', () => {
    const number = fc.integer({ min: 1, max: 6 });
    fc.assert(
      fc.property(
        fc.array(number, { minLength: 1, maxLength: 3 }),
        fc.array(number, { minLength: 1, maxLength: 4 }),
        (spares, numbers) => {
          const tubs = spares.map((spare, index) => tub(index, spare));
          const found = allocateDay(
            numbers.map((each, index) => parcel(index, each)),
            tubs,
          );
          const served = numbers.filter((_, index) => found[index]?.short.length === 0);
          const sum = served.reduce((total, each) => total + each, 0);
          const rooms = tubsToNet(sum, tubs).map(({ spare }) => spare);
          const splits = found.reduce((total, { catches }) => total + Math.max(0, catches.length - 1), 0);
          expect(splits).toBe(fewestSplits(served, rooms));
        },
      ),
      { numRuns: 300 },
    );
  });

  it('never takes more than is spare, keeps lines apart, serves all or nothing, and nets no tub in vain', () => {
    const tubs = fc.array(fc.tuple(fc.integer({ min: -5, max: 30 }), fc.integer({ min: 1, max: 2 })), {
      maxLength: 12,
    });
    const demand = fc.record({ lineId: fc.integer({ min: 1, max: 2 }), number: fc.integer({ min: 1, max: 25 }) });
    fc.assert(
      fc.property(tubs, fc.array(demand, { maxLength: 12 }), (spares, demands) => {
        const all = spares.map(([spare, lineId], index) => tub(index, spare, lineId));
        const found = allocateDay(
          demands.map((one, index) => ({ saleId: index, demands: [one] })),
          all,
        );
        for (const { tubId, spare } of all) {
          const taken = found.flatMap(({ catches }) => catches).filter((one) => one.tubId === tubId);
          expect(taken.reduce((sum, one) => sum + one.number, 0)).toBeLessThanOrEqual(Math.max(0, spare));
        }
        found.forEach(({ catches, short }, index) => {
          const { number: asked = 0, lineId = 0 } = demands[index] ?? {};
          expect(catches.reduce((sum, one) => sum + one.number, 0)).toBe(short.length === 0 ? asked : 0);
          for (const one of catches) {
            expect(one.lineId).toBe(lineId);
            expect(all[one.tubId]?.lineId).toBe(lineId);
            expect(one.number).toBeGreaterThan(0);
          }
        });
        const order = demands.map(({ lineId, number }, index) => ({ lineId, number, short: found[index]?.short[0] }));
        for (const lineId of [1, 2]) {
          let there = all
            .filter((one) => one.lineId === lineId)
            .reduce((sum, { spare }) => sum + Math.max(0, spare), 0);
          for (const one of order.filter((each) => each.lineId === lineId)) {
            expect(one.short).toEqual(one.number > there ? { lineId, asked: one.number, there } : undefined);
            if (one.short === undefined) there -= one.number;
          }
        }
      }),
    );
  });
});
