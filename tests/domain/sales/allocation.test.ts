import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allocate, allocateDay, type SpareTub } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270303 });

const tub = (tubId: number, spare: number, lineId = 1, name = `A${tubId}`): SpareTub => ({
  ...{ tubId, name, rack: 'A', lineId, spare },
});

describe('catching one number of a line', () => {
  it('takes one tub where one has enough: the fullest', () => {
    expect(allocate({ lineId: 1, number: 12 }, [tub(1, 14), tub(2, 30), tub(3, 12)])).toEqual({
      ok: true,
      value: [{ tubId: 2, lineId: 1, number: 12 }],
    });
  });

  it('takes the fullest first where none has enough', () => {
    expect(allocate({ lineId: 1, number: 24 }, [tub(1, 8), tub(2, 10), tub(3, 9)])).toEqual({
      ok: true,
      value: [
        { tubId: 2, lineId: 1, number: 10 },
        { tubId: 3, lineId: 1, number: 9 },
        { tubId: 1, lineId: 1, number: 5 },
      ],
    });
  });

  it('orders equal tubs by rack and name, numbers as numbers', () => {
    const tubs = [tub(1, 10, 1, 'A10'), tub(2, 10, 1, 'A2'), { ...tub(3, 10, 1, 'A1'), rack: 'B' }];
    expect(allocate({ lineId: 1, number: 5 }, tubs)).toMatchObject({ value: [{ tubId: 2 }] });
  });

  it('leaves other lines and empty tubs alone, and says what is lacking', () => {
    expect(allocate({ lineId: 1, number: 12 }, [tub(1, 11), tub(2, 50, 2), tub(3, 0), tub(4, -4)])).toEqual({
      ok: false,
      fault: { lineId: 1, asked: 12, there: 11 },
    });
  });

  it('catches nothing for nothing', () => {
    expect(allocate({ lineId: 1, number: 0 }, [tub(1, 11)])).toEqual({ ok: true, value: [] });
  });

  it('nets as few tubs as can be', () => {
    const tubs = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(tubs, fc.integer({ min: 1, max: 100 }), (spares, number) => {
        const found = allocate(
          { lineId: 1, number },
          spares.map((spare, index) => tub(index, spare)),
        );
        // Every set of tubs, counted out: the smallest that together has enough.
        let fewest = Number.POSITIVE_INFINITY;
        for (let set = 1; set < 2 ** spares.length; set++) {
          const chosen = spares.filter((_, index) => (set >> index) % 2 === 1);
          if (chosen.reduce((sum, spare) => sum + spare, 0) >= number) fewest = Math.min(fewest, chosen.length);
        }
        expect(found.ok ? found.value.length : Number.POSITIVE_INFINITY).toBe(fewest);
      }),
    );
  });
});

describe('catching for a whole day', () => {
  it('counts down what is spare, and nets a tub again rather than another', () => {
    const day = [
      { saleId: 41, demands: [{ lineId: 1, number: 12 }] },
      { saleId: 42, demands: [{ lineId: 1, number: 12 }] },
      { saleId: 43, demands: [{ lineId: 1, number: 12 }] },
    ];
    expect(allocateDay(day, [tub(1, 30), tub(2, 25)]).map(({ catches }) => catches.map((one) => one.tubId))).toEqual([
      [1],
      [1],
      [2],
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
      { saleId: 42, demands: [{ lineId: 1, number: 20 }] },
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

  it('catches two rows of one line together', () => {
    const demands = [
      { lineId: 1, number: 5 },
      { lineId: 1, number: 6 },
    ];
    expect(allocateDay([{ saleId: 1, demands }], [tub(1, 10), tub(2, 6)])[0]?.catches).toEqual([
      { tubId: 1, lineId: 1, number: 10 },
      { tubId: 2, lineId: 1, number: 1 },
    ]);
  });

  it('never takes more than is spare, and always all or nothing of a line', () => {
    const tubs = fc.array(fc.tuple(fc.integer({ min: -5, max: 30 }), fc.integer({ min: 1, max: 2 })), { maxLength: 6 });
    const demand = fc.record({ lineId: fc.integer({ min: 1, max: 2 }), number: fc.integer({ min: 1, max: 25 }) });
    fc.assert(
      fc.property(tubs, fc.array(demand, { maxLength: 8 }), (spares, demands) => {
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
          const asked = demands[index]?.number ?? 0;
          const caught = catches.reduce((sum, one) => sum + one.number, 0);
          expect(caught).toBe(short.length === 0 ? asked : 0);
        });
      }),
    );
  });
});
