import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { animalsOf, missingByLine, type SaleItem } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270303 });

const line = (id: number, number: number, extras = 0): SaleItem => ({
  ...{ of: 'line', id, name: `line ${id}` },
  ...{ number, extras, priceMinor: 200 },
});
const moss: SaleItem = { of: 'goods', id: 1, name: 'moss', number: 3, extras: 0, priceMinor: 400 };

describe('the animals of an order', () => {
  it('are those of its lines, with the extras where they are sent', () => {
    expect(animalsOf({ items: [line(1, 20, 3), moss, line(2, 10, 2)] })).toEqual({ ordered: 30, sent: 35 });
    expect(animalsOf({ items: [moss] })).toEqual({ ordered: 0, sent: 0 });
  });
});

describe('missing animals by line', () => {
  it('are in proportion to the order, goods aside', () => {
    expect(missingByLine([line(1, 20), moss, line(2, 10)], 9)).toEqual([
      { lineId: 1, name: 'line 1', number: 6 },
      { lineId: 2, name: 'line 2', number: 3 },
    ]);
    expect(missingByLine([line(1, 20), line(2, 1)], 2)).toEqual([{ lineId: 1, name: 'line 1', number: 2 }]);
    expect(missingByLine([moss], 2)).toEqual([]);
  });

  it('add up to what is missing, at most the order, and no line lacks more than was ordered of it', () => {
    const numbers = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(numbers, fc.nat(400), (ordered, missing) => {
        const items = ordered.map((number, id) => line(id, number));
        const parts = missingByLine(items, missing);
        const total = parts.reduce((sum, { number }) => sum + number, 0);
        expect(total).toBe(Math.min(missing, animalsOf({ items }).ordered));
        for (const { lineId, number } of parts) expect(number).toBeLessThanOrEqual(ordered[lineId] ?? 0);
      }),
    );
  });
});
