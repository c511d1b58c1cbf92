import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Instant, offersFor, type Waiting, wishesAfter } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const at = '2027-04-13T08:00:00.000Z' as Instant;
const wish = (id: number, number: number): Waiting => ({
  ...{ id, entryId: id, at, loggedAt: at, by: 'wren', lineId: 1, buyerId: id, buyer: `buyer ${id}`, number },
});
const perTen = (number: number): number => Math.ceil(number / 10);

describe('offers along a waiting list', () => {
  it('give who came first all that goes, and the next what is left', () => {
    const offers = offersFor([wish(1, 20), wish(2, 20), wish(3, 5)], 40, perTen);
    expect(offers.map(({ offer, extras }) => [offer, extras])).toEqual([
      [20, 2],
      [16, 2],
      [0, 0],
    ]);
  });

  it('are none where nothing is free or more is promised than there is', () => {
    expect(offersFor([wish(1, 20)], -5, perTen)[0]?.offer).toBe(0);
    expect(offersFor([], 50, perTen)).toEqual([]);
  });

  it('never come to more than is free, and pass nobody over for want of a smaller wish', () => {
    const numbers = fc.array(fc.integer({ min: 1, max: 60 }), { maxLength: 8 });
    fc.assert(
      fc.property(numbers, fc.integer({ min: -20, max: 200 }), (wishes, free) => {
        const offers = offersFor(
          wishes.map((number, index) => wish(index + 1, number)),
          free,
          perTen,
        );
        const taken = offers.reduce((sum, { offer, extras }) => sum + offer + extras, 0);
        expect(taken).toBeLessThanOrEqual(Math.max(0, free));
        let left = Math.max(0, free);
        for (const { waiting, offer, extras } of offers) {
          expect(extras).toBe(offer === 0 ? 0 : perTen(offer));
          if (offer < waiting.number) expect(offer + 1 + perTen(offer + 1)).toBeGreaterThan(left);
          left -= offer + extras;
        }
      }),
    );
  });
});

it('takes what is sold off the earlier wishes first', () => {
  const [first, second] = [wish(1, 10), wish(2, 10)];
  expect(wishesAfter([first, second], 14)).toEqual([
    { waiting: first, left: 0 },
    { waiting: second, left: 6 },
  ]);
  expect(wishesAfter([first, second], 3)).toEqual([{ waiting: first, left: 7 }]);
  expect(wishesAfter([], 3)).toEqual([]);
});
