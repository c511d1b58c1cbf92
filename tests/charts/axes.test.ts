import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apart } from '../../src/charts/apart.ts';
import { dayNumber, dayTicks } from '../../src/charts/days.ts';
import { scaleFor } from '../../src/charts/scale.ts';
import { day, type Instant } from '../../src/domain/index.ts';

describe('days', () => {
  it('are told by the wall clock of the business', () => {
    const at = '2027-04-14T01:30:00.000Z' as Instant;
    expect(dayNumber(at, 'America/Los_Angeles')).toBe(dayNumber(day('2027-04-13'), 'UTC') + 18.5 / 24);
    expect(dayNumber(at, 'UTC')).toBe(dayNumber(day('2027-04-14'), 'UTC') + 1.5 / 24);
  });

  it.each([
    ['2027-07-20', '2027-10-12', ['20 Jul', '10 Aug', '31 Aug', '21 Sep', '12 Oct']],
    ['2026-12-30', '2027-01-01', ['30 Dec', '31 Dec', '1 Jan']],
    ['2027-10-12', '2027-10-12', ['12 Oct']],
    ['2026-04-01', '2027-10-12', ['Apr 2026', 'Jan 2027', 'Oct 2027']],
  ])('from %s to %s are named', (from, to, labels) => {
    const { at, label } = dayTicks(dayNumber(day(from), 'UTC'), dayNumber(day(to), 'UTC'));
    expect(at.map(label)).toEqual(labels);
  });
});

describe('a scale', () => {
  it('has round steps, whole ones for whole values, and begins at 0 where it should', () => {
    expect(scaleFor([17, 63], true)).toEqual({ min: 0, max: 80, step: 20, decimals: 0 });
    expect(scaleFor([0, 2], true)).toEqual({ min: 0, max: 2, step: 1, decimals: 0 });
    expect(scaleFor([0, 0], true)).toEqual({ min: 0, max: 1, step: 1, decimals: 0 });
    expect(scaleFor([7.2, 7.4], false)).toEqual({ min: 7.15, max: 7.4, step: 0.05, decimals: 2 });
    expect(scaleFor([0, 0.25], true)).toEqual({ min: 0, max: 0.25, step: 0.05, decimals: 2 });
  });

  it('holds every value in at most five steps', () => {
    const value = fc.oneof(fc.double({ min: -100, max: 1e5, noNaN: true }), fc.nat(300));
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 20 }), fc.boolean(), (values, fromZero) => {
        const { min, max, step } = scaleFor(values, fromZero);
        const slack = step * 1e-6;
        expect(max).toBeGreaterThan(min);
        expect(min).toBeLessThanOrEqual(Math.min(...values) + slack);
        expect(max).toBeGreaterThanOrEqual(Math.max(...values) - slack);
        expect((max - min) / step).toBeLessThan(5.01);
        if (fromZero) expect(min).toBeLessThanOrEqual(0);
      }),
      { seed: 20270413 },
    );
  });
});

it('heights stand apart, in order, and as wanted where there is room', () => {
  expect(apart([50, 200, 120], 20, 0, 300)).toEqual([50, 200, 120]);
  expect(apart([100, 102, 300], 20, 0, 300)).toEqual([100, 120, 300]);
  expect(apart([298, 299, 300], 20, 0, 300)).toEqual([260, 280, 300]);
  expect(apart([5, 5, 5, 5], 20, 0, 30)).toEqual([0, 10, 20, 30]);
});
