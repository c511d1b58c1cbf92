import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type RateCurve, supportAt, valueAt } from '../../../src/domain/colony/development/rateCurve.ts';
import { supportOf } from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

/** A rate that is the degrees over a base, up to a top. */
const degrees = (base: number, top: number): RateCurve => [
  { at: base, value: 0, from: 'assumed' },
  { at: top, value: top - base, from: 'assumed' },
];

// The sources stand in the files.
const mcMaster = publishedTable('degreeDaysMcMaster1997.csv').rows;
const zalom = publishedTable('degreeDaysZalom1983.csv').rows;

describe('progress summed by the mean of the day', () => {
  it('is checked against whole tables', () => {
    expect([mcMaster.length, zalom.length]).toEqual([10, 12]);
  });

  it.each(mcMaster)('is the $degreeDays degree-days of $highC to $lowC °C', (row) => {
    const mean = (numberIn(row, 'highC') + numberIn(row, 'lowC')) / 2;
    expect(valueAt(degrees(0, 40), mean)).toBeCloseTo(numberIn(row, 'degreeDays'), 9);
  });

  it.each(zalom.filter((row) => row['thresholds'] === 'inside'))(
    'is the $degreeDays of $lowF to $highF °F, where no threshold is crossed',
    (row) => {
      const mean = (numberIn(row, 'lowF') + numberIn(row, 'highF')) / 2;
      expect(valueAt(degrees(55, 90), mean)).toBeCloseTo(numberIn(row, 'degreeDays'), 9);
    },
  );

  it.each(zalom.filter((row) => row['thresholds'] === 'crossed'))(
    'is off the $degreeDays of $lowF to $highF °F by the swing of the day, which a tub hardly has',
    (row) => {
      const [low, high] = [numberIn(row, 'lowF'), numberIn(row, 'highF')];
      const off = Math.abs(valueAt(degrees(55, 90), (low + high) / 2) - numberIn(row, 'degreeDays'));
      expect(off).toBeGreaterThan(0.05);
      expect(off).toBeLessThan((high - low) / 8);
    },
  );
});

describe('a curve', () => {
  const curve: RateCurve = [
    { at: 10, value: 1, from: 'published' },
    { at: 20, value: 3, from: 'published' },
    { at: 30, value: 2, from: 'assumed' },
  ];

  it('is straight between its anchors and held beyond them', () => {
    expect([-5, 10, 15, 20, 25, 30, 99].map((at) => valueAt(curve, at))).toEqual([1, 1, 2, 3, 2.5, 2, 2]);
  });

  it('says what it rests on', () => {
    expect([5, 9.6, 10, 15, 20, 20.5, 25, 30, 40].map((at) => supportAt(curve, at))).toEqual([
      'assumed',
      'published',
      'published',
      'interpolated',
      'published',
      'published',
      'assumed',
      'assumed',
      'assumed',
    ]);
  });

  it('never leaves what its anchors span', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (at) => {
        expect(valueAt(curve, at)).toBeGreaterThanOrEqual(1);
        expect(valueAt(curve, at)).toBeLessThanOrEqual(3);
      }),
    );
  });
});

describe('what a rate rests on', () => {
  it.each([
    ['eggDays', 24, 'published'],
    ['eggDays', 25, 'interpolated'],
    ['eggDays', 19, 'assumed'],
    ['eggDays', 33, 'assumed'],
    ['growth', 28, 'published'],
    ['growth', 30, 'interpolated'],
    ['growth', 20, 'assumed'],
    ['berriedShare', 24, 'assumed'],
    ['berriedShare', 32, 'published'],
    ['femaleShare', 23, 'published'],
    ['femaleShare', 21, 'interpolated'],
    ['femaleShare', 28, 'assumed'],
    ['broodSize', 18, 'interpolated'],
    ['broodSize', 26, 'assumed'],
    ['saleableDays', 15, 'interpolated'],
    ['saleableDays', 26, 'assumed'],
    ['broodRest', 24, 'assumed'],
    ['death', 24, 'assumed'],
    ['crowding', 5, 'assumed'],
  ] as const)('%s at %d: %s', (rate, at, support) => {
    expect(supportOf[rate](at)).toBe(support);
  });
});
