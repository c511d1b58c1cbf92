import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeToPromise, quantilesOf, rangeOf, sharpestCount } from '../../../../src/domain/index.ts';

const tubOf = (...animals: readonly number[]): Float32Array => Float32Array.from(animals);

describe('free to promise', () => {
  it('is the lower 10 % quantile of the sum taken inside each member, not a sum of quantiles', () => {
    const rising = tubOf(...Array.from({ length: 100 }, (_, member) => member));
    const falling = rising.toReversed();
    // Together the two always hold 99: what one lacks the other has.
    expect(freeToPromise([rising, falling], 0, 0)).toMatchObject({
      free: 99,
      low: 99,
      median: 99,
      high: 99,
      offer: 90,
    });
    expect(freeToPromise([rising, rising], 0, 0).free).toBe(19);
  });

  it('lets a poor tub owe nothing to a rich one', () => {
    expect(freeToPromise([tubOf(2, 2, 2), tubOf(40, 40, 40)], 10, 0).free).toBe(30);
  });

  it('is less by what is promised, offers whole tens, and may be below nothing', () => {
    const tub = tubOf(57, 57, 57);
    expect(freeToPromise([tub], 10, 12)).toMatchObject({ free: 35, offer: 30 });
    expect(freeToPromise([tub], 10, 60)).toMatchObject({ free: -13, offer: 0 });
    expect(freeToPromise([], 10, 5)).toEqual({ free: -5, offer: 0, low: -5, median: -5, high: -5 });
  });

  it('never offers more than is free, and never more than half of the members hold', () => {
    const tubs = fc.array(fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 20, maxLength: 20 }), {
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(
        tubs,
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 0, max: 100 }),
        (animals, holdBack, promised) => {
          const { free, offer, low, median, high } = freeToPromise(
            animals.map((one) => tubOf(...one)),
            holdBack,
            promised,
          );
          expect(offer).toBeLessThanOrEqual(Math.max(0, free));
          expect(offer % 10).toBe(0);
          expect(free).toBeLessThanOrEqual(median);
          expect(low <= median && median <= high).toBe(true);
        },
      ),
    );
  });
});

describe('ranges', () => {
  it('lie between the ranks of the values', () => {
    expect(quantilesOf([3, 1, 2, 4], [0, 0.5, 1])).toEqual([1, 2.5, 4]);
    expect(quantilesOf([7], [0.1, 0.9])).toEqual([7, 7]);
    expect(rangeOf(Array.from({ length: 101 }, (_, nth) => nth))).toEqual({ low: 10, median: 50, high: 90 });
  });
});

describe('the sharpest count', () => {
  it('is of the tub that most of the doubt comes from', () => {
    const members = Array.from({ length: 50 }, (_, member) => member);
    const wide = { tub: 'wide', saleable: tubOf(...members.map((member) => 20 + ((member * 17) % 50) * 3)) };
    const narrow = { tub: 'narrow', saleable: tubOf(...members.map((member) => 40 + ((member * 31) % 50) / 10)) };
    const found = sharpestCount([narrow, wide], 10);
    expect(found?.tub).toBe('wide');
    expect(found?.share).toBeGreaterThan(0.9);
  });

  it('is none where nothing is in doubt', () => {
    expect(sharpestCount([{ tub: 1, saleable: tubOf(30, 30, 30) }], 10)).toBeNull();
    expect(sharpestCount([], 10)).toBeNull();
  });
});
