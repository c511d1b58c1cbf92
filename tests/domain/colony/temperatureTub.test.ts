import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pullOf } from '../../../src/domain/colony/temperature/weather.ts';
import {
  addDays,
  day,
  fitYearCurve,
  type LocalDay,
  type TempPoint,
  tubOffset,
  tubTemperature,
  weatherDays,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const from = day('2026-01-01');
const rack = fitYearCurve(
  Array.from({ length: 104 }, (_, week) => {
    const on = addDays(from, week * 7);
    return {
      day: on,
      tempC: 19 + 4 * Math.cos((2 * Math.PI * (week * 7 - 205)) / 365.2425) + (week % 2 === 0 ? 1 : -1),
    };
  }),
  'north',
);
const on = day('2027-05-10');

describe('the pull of readings', () => {
  /** The conditional mean and variance of a process with covariance exp(−days/7), straight from the covariance. */
  const byCovariance = (before: number, after: number): { before: number; after: number; untold: number } => {
    const [a, b, ab] = [before, after, before + after].map((days) => Math.exp(-days / weatherDays)) as [
      number,
      number,
      number,
    ];
    const left = (a - ab * b) / (1 - ab ** 2);
    const right = (b - ab * a) / (1 - ab ** 2);
    return { before: left, after: right, untold: 1 - left * a - right * b };
  };

  it('is the conditional of the process', () => {
    const days = fc.double({ min: 0.5, max: 60, noNaN: true });
    fc.assert(
      fc.property(days, days, (before, after) => {
        const [pull, whole] = [pullOf(before, after), byCovariance(before, after)];
        expect(pull.before).toBeCloseTo(whole.before, 9);
        expect(pull.after).toBeCloseTo(whole.after, 9);
        expect(pull.untold).toBeCloseTo(whole.untold, 9);
      }),
    );
  });

  it('of one reading fades with the weather; of none there is none; years do no harm', () => {
    const one = pullOf(7, Number.POSITIVE_INFINITY);
    expect(one.before).toBeCloseTo(Math.exp(-1), 12);
    expect(one.after).toBe(0);
    expect(one.untold).toBeCloseTo(1 - Math.exp(-2), 12);
    expect(pullOf(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY)).toEqual({ before: 0, after: 0, untold: 1 });
    expect(pullOf(4000, 9000).untold).toBe(1);
  });
});

describe('a tub without readings', () => {
  it('has the curve of its rack, less surely', () => {
    const { tempC, sdC, from: told } = tubTemperature(rack, [])(on);
    expect(tempC).toBeCloseTo(rack.meanOn(on), 12);
    expect(sdC).toBeGreaterThan(rack.sdOn(on));
    expect(told).toBe('curve');
    expect(tubOffset(rack, [])).toEqual({ offsetC: 0, sdC: 1.5 });
  });
});

describe('a tub with one reading', () => {
  const at = tubTemperature(rack, [{ day: on, tempC: rack.meanOn(on) + 3 }]);

  it('had what was read on its day', () => {
    expect(at(on)).toEqual({ tempC: rack.meanOn(on) + 3, sdC: 0.5, from: 'reading' });
  });

  it('goes back to the curve in about a week, before and after alike, and keeps part of it as its place', () => {
    const over = (days: number): number => at(addDays(on, days)).tempC - rack.meanOn(addDays(on, days));
    expect(over(1)).toBeGreaterThan(2.4);
    expect(over(7)).toBeLessThan(over(1));
    expect(over(60)).toBeLessThan(2.1);
    expect(over(60)).toBeGreaterThan(0.8);
    expect(over(-7)).toBeCloseTo(over(7), 1);
    expect([1, 7, 20, 60].map((days) => at(addDays(on, days)).from)).toEqual(['between', 'between', 'curve', 'curve']);
    const sds = [1, 3, 7, 20, 60].map((days) => at(addDays(on, days)).sdC);
    expect(sds).toEqual(sds.toSorted((a, b) => a - b));
  });
});

describe('a tub read every week', () => {
  const weeks: TempPoint[] = Array.from({ length: 20 }, (_, week) => {
    const of = addDays(on, week * 7);
    return { day: of, tempC: rack.meanOn(of) + 2 + (week % 2 === 0 ? 0.4 : -0.4) };
  });
  const at = tubTemperature(rack, weeks);

  it('knows its place in the rack', () => {
    const { offsetC, sdC } = tubOffset(rack, weeks);
    expect(offsetC).toBeGreaterThan(1.5);
    expect(offsetC).toBeLessThan(2);
    expect(sdC).toBeLessThan(0.6);
    const winter = day('2028-01-15');
    expect(at(winter).tempC - rack.meanOn(winter)).toBeCloseTo(offsetC, 6);
    expect(at(winter).sdC).toBeLessThan(tubTemperature(rack, [])(winter).sdC);
  });

  it('lies between its readings, surer than the curve', () => {
    for (let ahead = 1; ahead < 130; ahead++) {
      const of = addDays(on, ahead);
      const { tempC, sdC, from: told } = at(of);
      expect(told).toBe(ahead % 7 === 0 ? 'reading' : 'between');
      expect(tempC - rack.meanOn(of)).toBeGreaterThan(1.4);
      expect(tempC - rack.meanOn(of)).toBeLessThan(2.5);
      expect(sdC).toBeLessThan(tubTemperature(rack, [])(of).sdC);
    }
  });

  it('keeps its place through one misread value', () => {
    const slipped = weeks.map((point, week) => (week === 8 ? { ...point, tempC: 2 } : point));
    expect(Math.abs(tubOffset(rack, slipped).offsetC - tubOffset(rack, weeks).offsetC)).toBeLessThan(0.35);
  });
});

describe('several readings of a day', () => {
  it('count as their median', () => {
    const at = tubTemperature(
      rack,
      [18, 21, 22].map((tempC) => ({ day: on, tempC })),
    );
    expect(at(on).tempC).toBe(21);
    expect(
      tubTemperature(
        rack,
        [20, 21].map((tempC) => ({ day: on, tempC })),
      )(on).tempC,
    ).toBe(20.5);
  });
});

describe('any readings', () => {
  const ahead = fc.integer({ min: 0, max: 400 });
  const point = fc.record({ ahead, tempC: fc.double({ min: 2, max: 38, noNaN: true }) });
  const days = (read: readonly { ahead: number; tempC: number }[]): TempPoint[] =>
    read.map(({ ahead: after, tempC }) => ({ day: addDays(on, after), tempC }));

  it('keep a day within what was read and the curve, with a doubt that is never nothing, in any order', () => {
    fc.assert(
      fc.property(fc.array(point, { maxLength: 40 }), ahead, (read, after) => {
        const points = days(read);
        const of: LocalDay = addDays(on, after);
        const { tempC, sdC, from: told } = tubTemperature(rack, points)(of);
        expect(tempC).toBeGreaterThan(-5);
        expect(tempC).toBeLessThan(45);
        expect(sdC).toBeGreaterThan(0.2);
        expect(sdC).toBeLessThan(6);
        expect(told === 'reading').toBe(points.some((at) => at.day === of));
        expect(tubTemperature(rack, points.toReversed())(of).tempC).toBeCloseTo(tempC, 9);
      }),
    );
  });

  it('make no jump: where the next is far, a day after one keeps six sevenths of what it was off the tub’s own curve', () => {
    const temps = fc.array(fc.double({ min: 2, max: 38, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(temps, (read) => {
        const points = read.map((tempC, index) => ({ day: addDays(on, index * 90), tempC }));
        const at = tubTemperature(rack, points);
        const { offsetC } = tubOffset(rack, points);
        const off = (of: LocalDay): number => at(of).tempC - rack.meanOn(of) - offsetC;
        for (const { day: of } of points) {
          expect(off(addDays(of, 1))).toBeCloseTo(off(of) * Math.exp(-1 / weatherDays), 3);
          expect(off(addDays(of, -1))).toBeCloseTo(off(of) * Math.exp(-1 / weatherDays), 3);
        }
      }),
    );
  });
});
