import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canBe, celsiusOf, fahrenheitOf, mendings, type WaterValueName } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

describe('what a tub can show', () => {
  it.each<[WaterValueName, number, boolean]>([
    ['tempC', 72, false],
    ['tempC', 0, true],
    ['tempC', 40, true],
    ['tempC', -0.1, false],
    ['ph', 74, false],
    ['ph', 7.4, true],
    ['nitrateMgL', -1, false],
    ['nitrateMgL', 0, true],
    ['nitrateMgL', Number.NaN, false],
    ['tdsMgL', Number.POSITIVE_INFINITY, false],
  ])('%s %d: %s', (name, value, possible) => {
    expect(canBe(name, value)).toBe(possible);
  });
});

describe('a slip mended', () => {
  it('takes 72 in a Celsius field for Fahrenheit: 22.2 °C', () => {
    expect(mendings('tempC', 72, false)).toEqual([{ value: 22.2, how: 'fahrenheit' }]);
  });
  it('takes 22 in a Fahrenheit field for Celsius', () => {
    expect(mendings('tempC', 22, true)).toEqual([{ value: 22, how: 'celsius' }]);
  });
  it('takes 215 for 21.5 °C and, typed on the other scale, 720 for 72.0 °F', () => {
    expect(mendings('tempC', 215, false)).toEqual([{ value: 21.5, how: 'decimal' }]);
    expect(mendings('tempC', 720, true)).toEqual([{ value: 22.2, how: 'decimal' }]);
    expect(mendings('tempC', 215, true)).toEqual([{ value: 21.5, how: 'celsius', meant: 21.5 }]);
  });
  it('takes pH 74, 740 and 0.74 for 7.4, and 999 for nothing', () => {
    expect(mendings('ph', 74, false)).toEqual([{ value: 7.4, how: 'decimal' }]);
    expect(mendings('ph', 740, false)).toEqual([{ value: 7.4, how: 'decimal' }]);
    expect(mendings('ph', 0.74, false)).toEqual([{ value: 7.4, how: 'decimal' }]);
    expect(mendings('ph', 999, false)).toEqual([]);
  });
  it('mends nothing that makes no sense either way', () => {
    expect(mendings('tempC', 1000, false)).toEqual([]);
    expect(mendings('tempC', Number.NaN, false)).toEqual([]);
    expect(mendings('nitrateMgL', -5, false)).toEqual([]);
    expect(mendings('ghDgh', 0, false)).toEqual([]);
  });
  it('takes GH 180 for mg/L of CaCO3, or for 18.0', () => {
    // 1 °dGH = 17.848 mg/L CaCO3.
    expect(mendings('ghDgh', 180, false)).toEqual([
      { value: 10.1, how: 'ppm' },
      { value: 18, how: 'decimal' },
    ]);
    expect(mendings('khDkh', 420, false)).toEqual([
      { value: 23.5, how: 'ppm' },
      { value: 4.2, how: 'decimal' },
    ]);
    expect(mendings('nitrateMgL', 2500, false)).toEqual([{ value: 25, how: 'decimal' }]);
  });

  it('only ever offers what a tub can show', () => {
    const names = fc.constantFrom<WaterValueName>('tempC', 'ph', 'ghDgh', 'khDkh', 'tdsMgL', 'nitrateMgL');
    fc.assert(
      fc.property(names, fc.double({ min: -1000, max: 10_000, noNaN: true }), fc.boolean(), (name, typed, inF) => {
        for (const { value } of mendings(name, typed, inF)) expect(canBe(name, value)).toBe(true);
      }),
    );
  });

  it('turns Fahrenheit to Celsius and back', () => {
    expect(celsiusOf(212)).toBe(100);
    expect(fahrenheitOf(-40)).toBe(-40);
    fc.assert(
      fc.property(fc.double({ min: -50, max: 150, noNaN: true }), (t) => {
        expect(fahrenheitOf(celsiusOf(t))).toBeCloseTo(t, 9);
      }),
    );
  });
});
