import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { afterChange, beforeChange, swappedTogether } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const repeat = (times: number, fraction: number): number[] => Array.from({ length: times }, () => fraction);

// Mass balance of a mixed vessel, elementary algebra: no handbook gives worked examples, so the powers are computed by hand.
describe('dilution by water changes', () => {
  it.each([
    [0.1, 1, 0.9],
    [0.1, 2, 0.81],
    [0.1, 5, 0.5905],
    [0.1, 10, 0.3487],
    [0.2, 1, 0.8],
    [0.2, 2, 0.64],
    [0.2, 5, 0.3277],
    [0.2, 10, 0.1074],
  ])('a change of %d leaves after %d times %d of what was there', (fraction, times, left) => {
    const level = repeat(times, fraction).reduce((before, f) => afterChange(before, f, 0), 1);
    expect(level).toBeCloseTo(left, 4);
    expect(1 - swappedTogether(repeat(times, fraction))).toBeCloseTo(left, 4);
  });

  it.each([
    [2, 0.25, 44],
    [3, 0.25, 58],
    [2, 0.1, 19],
  ])('%d changes of %d swap %d per cent', (times, fraction, percent) => {
    expect(Math.round(swappedTogether(repeat(times, fraction)) * 100)).toBe(percent);
  });

  it('swaps nothing without a change', () => {
    expect(swappedTogether([])).toBe(0);
  });

  it.each([
    [0.1, 0, 9, 10],
    [0.2, 0, 4, 5],
    [0.1, 5, 14, 15],
    [0.5, 0, 1, 2],
  ])(
    'with a rise of 1 between changes of %d, source %d, settles at %d after and %d before',
    (f, source, after, before) => {
      // Steady state of c' = (c + a)(1 − f) + f c_in: a(1 − f)/f + c_in after, a/f + c_in before. The rise of 1 settling at 2 with half
      // changed is the series that a public mailing list derives (a dose of X with 50 % weekly converges to 2X).
      let level = 0;
      for (let n = 0; n < 400; n++) level = afterChange(level + 1, f, source);
      expect(level).toBeCloseTo(after, 6);
      expect(level + 1).toBeCloseTo(before, 6);
    },
  );

  it('tells what was there before a change by what is there after it, but for a change of all', () => {
    const levels = fc.record({
      source: fc.double({ min: 0, max: 60, noNaN: true }),
      before: fc.double({ min: 0, max: 400, noNaN: true }),
      fraction: fc.double({ min: 0.02, max: 0.9, noNaN: true }),
    });
    fc.assert(
      fc.property(levels, ({ source, before, fraction }) => {
        expect(beforeChange(afterChange(before, fraction, source), fraction, source)).toBeCloseTo(before, 6);
      }),
    );
    expect(beforeChange(5, 1, 5)).toBeNull();
  });
});
