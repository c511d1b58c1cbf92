import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrivalOutcome, chanceOfFull, extrasFor, mostThatFits, survivalChance } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270303 });

const none = { sent: 0, dead: 0 };

/** Binomial coefficient in whole numbers, to check the sum in logarithms against. */
function choose(n: bigint, k: bigint): bigint {
  let result = 1n;
  for (let i = 1n; i <= k; i++) result = (result * (n - k + i)) / i;
  return result;
}

describe('the chance that an order arrives full', () => {
  // Chances that ten of ten, eleven and twelve live at a loss of 1, 3 and 5 in 100: calculated, in per cent.
  it.each([
    [0.99, 90.4, 99.5, 100],
    [0.97, 73.7, 95.9, 99.5],
    [0.95, 59.9, 89.8, 98.0],
  ])('of ten animals that live with chance %d', (survival, ...percents) => {
    percents.forEach((percent, extras) => {
      expect(100 * chanceOfFull(10, 10 + extras, survival)).toBeCloseTo(percent, 1);
    });
  });

  it('is the sum of the exact binomial terms', () => {
    const cases = fc.record({
      needed: fc.integer({ min: 1, max: 40 }),
      extras: fc.integer({ min: 0, max: 10 }),
      survival: fc.integer({ min: 1, max: 99 }).map((percent) => percent / 100),
    });
    fc.assert(
      fc.property(cases, ({ needed, extras, survival }) => {
        const sent = needed + extras;
        let sum = 0;
        for (let alive = needed; alive <= sent; alive++) {
          sum += Number(choose(BigInt(sent), BigInt(alive))) * survival ** alive * (1 - survival) ** (sent - alive);
        }
        expect(chanceOfFull(needed, sent, survival)).toBeCloseTo(sum, 10);
      }),
    );
  });

  it('does not fade to nothing for thousands of animals', () => {
    expect(chanceOfFull(30_000, 31_500, 0.97)).toBeGreaterThan(0.99);
  });

  it('is none with fewer than needed and sure when all live', () => {
    expect(chanceOfFull(10, 9, 0.99)).toBe(0);
    expect(chanceOfFull(10, 10, 1)).toBe(1);
  });
});

describe('extras', () => {
  it('are two for ten animals before anything is recorded', () => {
    expect(survivalChance(none)).toBeCloseTo(0.97, 12);
    expect(extrasFor(10, none, 98)).toBe(2);
  });

  it('follow the record: fewer after good arrivals, more after bad ones', () => {
    expect(extrasFor(10, { sent: 2000, dead: 2 }, 98)).toBe(1);
    expect(extrasFor(10, { sent: 100, dead: 20 }, 98)).toBe(4);
    expect(extrasFor(0, none, 98)).toBe(0);
    expect(extrasFor(10, none, 0)).toBe(0);
  });

  it('are the fewest that reach the level, and never fewer for a higher one', () => {
    const records = fc
      .integer({ min: 0, max: 500 })
      .chain((sent) => fc.record({ sent: fc.constant(sent), dead: fc.integer({ min: 0, max: sent }) }));
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 120 }),
        records,
        fc.integer({ min: 50, max: 99 }),
        (number, record, level) => {
          const extras = extrasFor(number, record, level);
          const survival = survivalChance(record);
          expect(chanceOfFull(number, number + extras, survival)).toBeGreaterThanOrEqual(level / 100);
          if (extras > 0) expect(chanceOfFull(number, number + extras - 1, survival)).toBeLessThan(level / 100);
          expect(extrasFor(number, record, Math.min(99.5, level + 0.5))).toBeGreaterThanOrEqual(extras);
        },
      ),
    );
  });

  it('are found also where hardly anything arrived', () => {
    const wiped = { sent: 5000, dead: 5000 };
    const extras = extrasFor(200, wiped, 98);
    expect(chanceOfFull(200, 200 + extras, survivalChance(wiped))).toBeGreaterThanOrEqual(0.98);
    expect(chanceOfFull(200, 200 + extras - 1, survivalChance(wiped))).toBeLessThan(0.98);
  });

  it.each([100, -1, Number.NaN])('are not asked for at a level of %d %%', (level) => {
    expect(() => extrasFor(10, none, level)).toThrow(RangeError);
  });

  it('are not worked out from a record with more dead than sent', () => {
    expect(() => extrasFor(10, { sent: 1, dead: 2 }, 98)).toThrow(RangeError);
  });
});

describe('how an order came out', () => {
  it.each([
    [24, 2, 20, { alive: 22, owed: 0, promiseKept: true }],
    [24, 4, 20, { alive: 20, owed: 0, promiseKept: true }],
    [24, 5, 20, { alive: 19, owed: 1, promiseKept: false }],
    [12, 12, 10, { alive: 0, owed: 10, promiseKept: false }],
  ])('%d sent, %d dead, %d ordered', (sent, dead, ordered, expected) => {
    expect(arrivalOutcome({ sent, dead, ordered })).toEqual(expected);
  });

  it('cannot have more dead than sent', () => {
    expect(() => arrivalOutcome({ sent: 10, dead: 11, ordered: 10 })).toThrow(RangeError);
  });
});

describe('the most that fits with its extras', () => {
  it('is what is asked where it fits, else the largest number below, else none', () => {
    const tenth = (number: number): number => Math.ceil(number / 10);
    expect(mostThatFits(20, 22, tenth)).toEqual({ fits: 20, fitsExtras: 2 });
    expect(mostThatFits(20, 21, tenth)).toEqual({ fits: 19, fitsExtras: 2 });
    expect(mostThatFits(20, 1, tenth)).toEqual({ fits: 0, fitsExtras: 0 });
    expect(mostThatFits(20, -4, tenth)).toEqual({ fits: 0, fitsExtras: 0 });
  });

  it('fits, and one more would not', () => {
    const rule = (number: number): number => extrasFor(number, none, 98);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: -5, max: 200 }), (asked, free) => {
        const { fits, fitsExtras } = mostThatFits(asked, free, rule);
        expect(fits === 0 || fits + fitsExtras <= free).toBe(true);
        expect(fits === asked || fits + 1 + rule(fits + 1) > free).toBe(true);
      }),
    );
  });
});
