import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { itemShares, splitMinor } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const sum = (parts: readonly number[]): number => parts.reduce((total, part) => total + part, 0);
const weight = fc.oneof(fc.nat(20), fc.nat(1_000_000_000));

describe('an amount that is split', () => {
  it('gives the units left over to the largest remainders, the earlier first', () => {
    expect(splitMinor(100, [1, 1, 1])).toEqual([34, 33, 33]);
    expect(splitMinor(10, [5, 3, 2])).toEqual([5, 3, 2]);
    expect(splitMinor(11, [60, 30, 10])).toEqual([7, 3, 1]);
    expect(splitMinor(-100, [1, 2, 0])).toEqual([-33, -67, 0]);
    expect(splitMinor(5, [0, 0])).toEqual([3, 2]);
    expect(splitMinor(0, [])).toEqual([]);
  });

  it('adds up to the whole to the last unit, each part its share rounded up or down', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.array(weight, { minLength: 1, maxLength: 12 }),
        (minor, weights) => {
          const parts = splitMinor(minor, weights);
          expect(sum(parts)).toBe(minor);
          const whole = sum(weights);
          parts.forEach((part, index) => {
            expect(Number.isSafeInteger(part) && !Object.is(part, -0)).toBe(true);
            if (whole === 0) return;
            const twice =
              BigInt(Math.abs(part)) * BigInt(whole) - BigInt(Math.abs(minor)) * BigInt(weights[index] ?? 0);
            expect(twice > -BigInt(whole) && twice < BigInt(whole)).toBe(true);
            expect(part === 0 || part < 0 === minor < 0).toBe(true);
          });
        },
      ),
    );
  });

  it('is refused among nobody, and in parts of a unit', () => {
    expect(() => splitMinor(1, [])).toThrow(RangeError);
    expect(() => splitMinor(0.5, [1])).toThrow(RangeError);
    expect(() => splitMinor(1, [0.5])).toThrow(RangeError);
    expect(() => splitMinor(1, [-1, 2])).toThrow(RangeError);
  });
});

describe('what each item brought of the price', () => {
  const jade = { number: 20, priceMinor: 200 };
  const moss = { number: 2, priceMinor: 400 };
  const unknown = { number: 5, priceMinor: null };

  it('is its list value, and its part of a discount or of more', () => {
    expect(itemShares(4800, [jade, moss])).toEqual({ minor: [4000, 800], isKnown: true });
    expect(itemShares(4500, [jade, moss]).minor).toEqual([3750, 750]);
    expect(itemShares(6000, [jade, moss]).minor).toEqual([5000, 1000]);
  });

  it('is what the others leave where its own price is not known, by number', () => {
    expect(itemShares(5800, [jade, moss, unknown])).toEqual({ minor: [4000, 800, 1000], isKnown: false });
    expect(itemShares(1000, [moss, unknown, { number: 15, priceMinor: null }]).minor).toEqual([800, 50, 150]);
    expect(itemShares(2400, [jade, moss, unknown]).minor).toEqual([2000, 400, 0]);
    expect(itemShares(1000, [unknown, { number: 15, priceMinor: null }]).minor).toEqual([250, 750]);
    expect(itemShares(1000, [unknown])).toEqual({ minor: [1000], isKnown: true });
  });

  it('goes by number where the list says nothing or that all is free', () => {
    expect(
      itemShares(900, [
        { number: 1, priceMinor: 0 },
        { number: 2, priceMinor: 0 },
      ]).minor,
    ).toEqual([300, 600]);
    expect(itemShares(900, [{ number: 1, priceMinor: 0 }, unknown]).minor).toEqual([0, 900]);
    expect(itemShares(0, [])).toEqual({ minor: [], isKnown: true });
  });

  it('adds up to the price, whatever is known', () => {
    const item = fc.record({
      number: fc.integer({ min: 1, max: 5000 }),
      priceMinor: fc.option(fc.nat(10_000_000), { nil: null }),
    });
    fc.assert(
      fc.property(fc.nat(1_000_000_000), fc.array(item, { minLength: 1, maxLength: 8 }), (priceMinor, items) => {
        const { minor } = itemShares(priceMinor, items);
        expect(sum(minor)).toBe(priceMinor);
        expect(minor.every((part) => part >= 0)).toBe(true);
      }),
    );
  });
});
