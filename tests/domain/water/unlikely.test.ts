import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canBe, likelySlips, type WaterValueName } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

describe('a value that can be, far from the last one', () => {
  it.each<[WaterValueName, number, number, number, string]>([
    ['tempC', 2.2, 21.5, 22, 'decimal'],
    ['tempC', 40, 5, 4.4, 'fahrenheit'],
    ['ghDgh', 45, 4, 4.5, 'decimal'],
    ['ghDgh', 36, 2.4, 2, 'ppm'],
    ['khDkh', 0.4, 4, 4, 'decimal'],
    ['tdsMgL', 24, 240, 240, 'decimal'],
    ['tdsMgL', 2400, 250, 240, 'decimal'],
    ['tdsMgL', 375, 240, 240, 'conductivity'],
  ])('%s %d after %d probably was %d (%s)', (name, typed, last, meant, how) => {
    expect(likelySlips(name, typed, last)[0]).toEqual({ value: meant, how });
  });

  it.each<[WaterValueName, number, number]>([
    ['tempC', 26, 21],
    ['tempC', 12, 21],
    ['tdsMgL', 300, 240],
    ['ghDgh', 12, 7],
    ['khDkh', 1, 3],
    // Nothing near the last value comes of it: the tub may have been moved.
    ['tempC', 32, 20],
    ['tdsMgL', 900, 240],
    // Harm is logged and judged, never asked about; nitrate is judged by what was logged before.
    ['ammoniaMgL', 5, 0.5],
    ['nitriteMgL', 2, 0.2],
    ['nitrateMgL', 4, 40],
    ['ph', 5.2, 7.4],
  ])('%s %d after %d is not asked about', (name, typed, last) => {
    expect(likelySlips(name, typed, last)).toEqual([]);
  });

  it('only ever offers what can be and lies nearer to the last value', () => {
    const names = fc.constantFrom<WaterValueName>('tempC', 'ghDgh', 'khDkh', 'tdsMgL');
    const value = fc.double({ min: 0.1, max: 2000, noNaN: true });
    fc.assert(
      fc.property(names, value, value, (name, typed, last) => {
        fc.pre(canBe(name, typed) && canBe(name, last));
        for (const { value: meant } of likelySlips(name, typed, last)) {
          expect(canBe(name, meant)).toBe(true);
          expect(Math.abs(meant - last)).toBeLessThan(Math.abs(typed - last));
        }
      }),
      { numRuns: 1000 },
    );
  });
});
