import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Instant,
  kendallChance,
  kendallS,
  type Point,
  plusMs,
  senSlope,
  trendOf,
} from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T16:50:00.000Z' as Instant;
const at = (daysAgo: number, value: number): Point => ({ at: plusMs(now, -daysAgo * 86_400_000), value });
/** Weekly readings, the last one today. */
const weekly = (values: readonly number[]): Point[] =>
  values.map((value, index) => at((values.length - 1 - index) * 7, value));

const table = publishedTable('kendallNull.csv');

describe("Kendall's S", () => {
  it('is checked against the whole table for 4 to 10 values', () => {
    expect(table.rows).toHaveLength(77);
    expect(new Set(table.rows.map(({ n }) => n))).toEqual(new Set(['4', '5', '6', '7', '8', '9', '10']));
  });

  it.each(table.rows)('is $s or more of $n values with chance $chance', (row) => {
    const [n, s] = [numberIn(row, 'n'), numberIn(row, 's')];
    // The table is one-sided. Two-sided is double, and all where S is 0.
    const chance = kendallChance(s, n);
    if (s === 0) expect(chance).toBe(1);
    else
      expect((chance / 2).toFixed(numberIn(row, 'decimals'))).toBe(
        numberIn(row, 'chance').toFixed(numberIn(row, 'decimals')),
      );
    expect(kendallChance(-s, n)).toBe(chance);
  });

  it('counts rising pairs less falling ones', () => {
    expect(kendallS([1, 2, 3, 4])).toBe(6);
    expect(kendallS([4, 3, 2, 1])).toBe(-6);
    expect(kendallS([1, 3, 2, 2])).toBe(1);
  });
});

describe("Sen's slope", () => {
  it('is that of a line, whatever one wild value says', () => {
    expect(senSlope(weekly([200, 203, 206, 209, 212])) * 7).toBeCloseTo(3, 9);
    expect(senSlope(weekly([200, 203, 206, 900, 212, 215, 218])) * 7).toBeCloseTo(3, 9);
  });

  it('passes over two readings of one moment', () => {
    expect(senSlope([at(7, 200), at(7, 300), at(0, 250)])).toBeCloseTo(0, 9);
  });
});

describe('the trend of a tub', () => {
  it.each([
    ['rising', [180, 190, 199, 210, 222], 10.5],
    ['falling', [222, 210, 199, 190, 180], -10.5],
    ['rising', [180, 190, 200, 210], 10],
  ])('is %s from %o', (of, values, perWeek) => {
    const trend = trendOf(weekly(values), now, 5);
    expect(trend).toMatchObject({ of, readings: values.length, latest: values.at(-1) });
    if (trend.of === 'unknown') throw new Error('it is known');
    expect(Math.abs(trend.perWeek - perWeek)).toBeLessThan(0.7);
  });

  it.each([
    ['no order', [200, 206, 198, 203, 201, 205]],
    ['a rise under 5 %', [200, 201, 203, 204, 206]],
    ['one wild value', [200, 200, 260, 200, 200, 200]],
    ['no change at all', [200, 200, 200, 200]],
  ])('is steady with %s', (_, values) => {
    expect(trendOf(weekly(values), now, 5).of).toBe('steady');
  });

  it('is steady while it moved less than the kit can tell', () => {
    expect(trendOf(weekly([6, 6.2, 6.4, 6.6]), now, 1).of).toBe('steady');
    expect(trendOf(weekly([6, 6.2, 6.4, 6.6]), now, 0.5).of).toBe('rising');
  });

  it('is not known under four readings or under three weeks', () => {
    expect(trendOf([], now, 5)).toEqual({ of: 'unknown', readings: 0, spanDays: 0 });
    expect(trendOf(weekly([180, 200, 220]), now, 5)).toEqual({ of: 'unknown', readings: 3, spanDays: 14 });
    const within = [at(20, 180), at(13, 190), at(6, 200), at(0, 210)];
    expect(trendOf(within, now, 5)).toEqual({ of: 'unknown', readings: 4, spanDays: 20 });
  });

  it('is that of 60 days where these hold enough, measured from what the tub began with', () => {
    const longAgo = Array.from({ length: 10 }, (_, n) => at(170 - n * 7, 150 + n * 5));
    const lately = weekly([220, 221, 219, 220, 221, 220]);
    expect(trendOf([...lately, ...longAgo], now, 5)).toMatchObject({ of: 'steady', readings: 6, latest: 220 });
    const trend = trendOf([...longAgo, ...lately], now, 5);
    // The first six of sixteen: 150 to 175.
    expect(trend).toMatchObject({ baseline: 162.5 });
  });

  it('looks at half a year where readings are rare, and never further', () => {
    const monthly = [at(150, 180), at(120, 195), at(90, 210), at(60, 225), at(30, 240), at(0, 255)];
    expect(trendOf(monthly, now, 5)).toMatchObject({ of: 'rising', readings: 6, spanDays: 150 });
    expect(trendOf([at(400, 10), at(300, 20), at(200, 30), at(0, 180)], now, 5)).toMatchObject({ of: 'unknown' });
  });

  it('does not mind the order of the list, and has the other sign when the readings are turned round', () => {
    const values = fc.array(fc.double({ min: 100, max: 400, noNaN: true }), { minLength: 4, maxLength: 9 });
    fc.assert(
      fc.property(values, (read) => {
        const trend = trendOf(weekly(read), now, 5);
        expect(trendOf(weekly(read).reverse(), now, 5)).toEqual(trend);
        const turned = trendOf(weekly(read.toReversed()), now, 5);
        if (trend.of === 'unknown' || turned.of === 'unknown') throw new Error('enough was read');
        expect(turned.perWeek).toBeCloseTo(-trend.perWeek, 9);
        if (trend.of !== 'steady') expect(trend.perWeek > 0).toBe(trend.of === 'rising');
      }),
    );
  });
});
