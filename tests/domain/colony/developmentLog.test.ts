import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { correctedByLog, daysToSaleable24C, eggDaysFactor, incubationDays } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const factor = fc.double({ min: 0.4, max: 3, noNaN: true });

describe('a rate corrected by the couple’s own log', () => {
  it('stays as published while nothing is logged', () => {
    expect(correctedByLog(eggDaysFactor, [])).toEqual(eggDaysFactor);
    expect(correctedByLog(eggDaysFactor, [0, -3, Number.NaN])).toEqual(eggDaysFactor);
  });

  it('goes half the way with one brood and nearly all of it with ten', () => {
    const carried = 26 / (incubationDays(24) ?? Number.NaN);
    const one = correctedByLog(eggDaysFactor, [carried]);
    expect(one.median).toBeGreaterThan(1.08);
    expect(one.median).toBeLessThan(carried);
    const ten = correctedByLog(
      eggDaysFactor,
      Array.from({ length: 10 }, () => carried),
    );
    expect(Math.abs(ten.median / carried - 1)).toBeLessThan(0.03);
    expect(ten.high / ten.low).toBeLessThan(one.high / one.low);
    expect(one.high / one.low).toBeLessThan(eggDaysFactor.high / eggDaysFactor.low);
  });

  it('is narrowed to a tenth or so by a few batches, however wide it was', () => {
    const days = daysToSaleable24C(15);
    const logged = correctedByLog(
      { median: 1, low: days.low / days.median, high: days.high / days.median },
      [1.5, 1.4, 1.6, 1.45, 1.55, 1.5],
    );
    expect(logged.median).toBeGreaterThan(1.4);
    expect(logged.median).toBeLessThan(1.5);
    expect(logged.low).toBeGreaterThan(1.25);
    expect(logged.high).toBeLessThan(1.75);
  });

  it('hardly heeds one wrong date among four', () => {
    const right = correctedByLog(eggDaysFactor, [1.3, 1.25, 1.35]);
    const withWrong = correctedByLog(eggDaysFactor, [1.3, 1.25, 1.35, 5]);
    expect(Math.abs(withWrong.median / right.median - 1)).toBeLessThan(0.06);
  });

  it('never leaves what was published and logged, never widens, and no order matters', () => {
    fc.assert(
      fc.property(fc.array(factor, { minLength: 1, maxLength: 30 }), (observed) => {
        const { median, low, high } = correctedByLog(eggDaysFactor, observed);
        expect(median).toBeGreaterThanOrEqual(Math.min(1, ...observed) - 1e-9);
        expect(median).toBeLessThanOrEqual(Math.max(1, ...observed) + 1e-9);
        expect(low).toBeLessThanOrEqual(median);
        expect(high).toBeGreaterThanOrEqual(median);
        expect(high / low).toBeLessThanOrEqual(eggDaysFactor.high / eggDaysFactor.low + 1e-9);
        expect(correctedByLog(eggDaysFactor, observed.toReversed()).median).toBeCloseTo(median, 9);
      }),
    );
  });
});
