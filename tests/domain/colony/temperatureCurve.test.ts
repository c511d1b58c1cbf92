import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber, yearAngle } from '../../../src/domain/colony/temperature/dayNumber.ts';
import {
  addDays,
  day,
  fitYearCurve,
  type LocalDay,
  type TempPoint,
  weatherDays,
  type YearCurve,
  yearPrior,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

/** Chance by seed, 0 to 1 (mulberry32). */
function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

interface Year {
  readonly meanC: number;
  readonly swingC: number;
  /** Days after 25 July that it is warmest. */
  readonly lateDays: number;
  readonly weatherSdC: number;
}

const trueOn = ({ meanC, swingC, lateDays }: Year, on: LocalDay): number =>
  meanC + swingC * Math.cos(yearAngle(dayNumber(on) - lateDays));

/** Readings every `every` days from `from` on, with weather that lasts and a thermometer's error. */
function readings(year: Year, from: LocalDay, days: number, every: number, seed = 1): TempPoint[] {
  const random = chance(seed);
  const kept = Math.exp(-1 / weatherDays);
  let weather = year.weatherSdC * normal(random);
  return Array.from({ length: days }, (_, index) => addDays(from, index)).flatMap((on, index) => {
    weather = kept * weather + Math.sqrt(1 - kept ** 2) * year.weatherSdC * normal(random);
    return index % every === 0 ? [{ day: on, tempC: trueOn(year, on) + weather + 0.3 * normal(random) }] : [];
  });
}

const cellar: Year = { meanC: 17.5, swingC: 5, lateDays: 12, weatherSdC: 1 };
const days2027 = Array.from({ length: 365 }, (_, index) => addDays(day('2027-01-01'), index));
const worst = (curve: YearCurve, year: Year): number =>
  Math.max(...days2027.map((on) => Math.abs(curve.meanOn(on) - trueOn(year, on))));

describe('a rack nobody has measured', () => {
  it.each([
    ['north', '07-25', 24, 16],
    ['south', '01-24', 16, 24],
  ] as const)('has the year of the %s', (hemisphere, warmest, july, january) => {
    const curve = fitYearCurve([], hemisphere);
    expect(curve.readings).toBe(0);
    expect(curve.warmestOn).toBe(warmest);
    expect(curve.amplitudeC).toBe(4);
    expect(curve.meanOn(day('2027-07-25'))).toBeCloseTo(july, 1);
    expect(curve.meanOn(day('2027-01-24'))).toBeCloseTo(january, 1);
    expect(curve.sdOn(day('2027-01-24'))).toBeGreaterThan(3);
  });

  it('has no season where the hemisphere is not known, and says how little that is', () => {
    const curve = fitYearCurve([]);
    expect(new Set(days2027.map((on) => curve.meanOn(on).toFixed(6)))).toEqual(new Set(['20.000000']));
    expect(curve.sdOn(day('2027-07-25'))).toBeGreaterThan(fitYearCurve([], 'north').sdOn(day('2027-07-25')));
    expect(curve.sdOn(day('2027-07-25'))).toBeGreaterThan(4.5);
  });
});

describe('a rack measured once', () => {
  it('moves towards the reading, most on its day, and keeps its doubt in the other season', () => {
    const on = day('2027-07-20');
    const [none, one] = [fitYearCurve([], 'north'), fitYearCurve([{ day: on, tempC: 27 }], 'north')];
    expect(one.meanOn(on)).toBeGreaterThan(none.meanOn(on) + 1.5);
    expect(one.meanOn(on)).toBeLessThan(27);
    const moved = (of: LocalDay): number => Math.abs(one.meanOn(of) - none.meanOn(of));
    expect(moved(day('2027-01-20'))).toBeLessThan(moved(on));
    expect(one.doubtOn(on)).toBeLessThan(none.doubtOn(on) / 1.5);
    expect(one.doubtOn(day('2027-01-20'))).toBeGreaterThan(none.doubtOn(day('2027-01-20')) * 0.8);
  });
});

describe('a rack measured for two years', () => {
  const points = readings(cellar, day('2025-03-01'), 730, 3);

  it('has its own mean, swing and warmest day', () => {
    const curve = fitYearCurve(points, 'north');
    expect(Math.abs(curve.meanC - cellar.meanC)).toBeLessThan(0.5);
    expect(Math.abs(curve.amplitudeC - cellar.swingC)).toBeLessThan(0.6);
    expect(curve.warmestOn > '07-28' && curve.warmestOn < '08-16').toBe(true);
    expect(worst(curve, cellar)).toBeLessThan(0.9);
    expect(curve.readings).toBe(points.length);
  });

  it('has them whatever the hint says', () => {
    const [north, unknown, south] = (['north', null, 'south'] as const).map((hint) => fitYearCurve(points, hint));
    for (const curve of [unknown, south]) {
      if (north === undefined || curve === undefined) throw new Error('no curve');
      expect(Math.max(...days2027.map((on) => Math.abs(curve.meanOn(on) - north.meanOn(on))))).toBeLessThan(0.8);
    }
  });

  it('comes out southern of southern readings without a hint', () => {
    const south: Year = { ...cellar, swingC: -5 };
    const curve = fitYearCurve(readings(south, day('2025-03-01'), 400, 7, 4));
    expect(curve.warmestOn > '01-20' && curve.warmestOn < '02-25').toBe(true);
    expect(worst(curve, south)).toBeLessThan(1.5);
  });

  it('knows the weather about the curve', () => {
    const calm = fitYearCurve(readings({ ...cellar, weatherSdC: 0.4 }, day('2025-03-01'), 730, 3), 'north');
    const wild = fitYearCurve(readings({ ...cellar, weatherSdC: 2.5 }, day('2025-03-01'), 730, 3), 'north');
    expect(calm.weatherSdC).toBeLessThan(0.75);
    expect(wild.weatherSdC).toBeGreaterThan(1.8);
    expect(wild.weatherSdC).toBeLessThan(3.2);
  });

  it('is bent by no misread value: Fahrenheit, a lost decimal point, a slip', () => {
    const right = fitYearCurve(points, 'north');
    for (const wrongC of [1.9, 39.5, 8]) {
      const slipped = points.map((point, index) => (index === 120 ? { ...point, tempC: wrongC } : point));
      const curve = fitYearCurve(slipped, 'north');
      expect(Math.max(...days2027.map((on) => Math.abs(curve.meanOn(on) - right.meanOn(on))))).toBeLessThan(0.1);
    }
  });

  it('is bent by none of few either', () => {
    const few = points.slice(0, 60).filter((_, index) => index % 5 === 0);
    const slipped = few.map((point, index) => (index === 5 ? { ...point, tempC: 2.1 } : point));
    const [right, curve] = [fitYearCurve(few, 'north'), fitYearCurve(slipped, 'north')];
    expect(Math.max(...days2027.map((on) => Math.abs(curve.meanOn(on) - right.meanOn(on))))).toBeLessThan(0.8);
  });
});

describe('readings that tell less than they are many', () => {
  it('a hundred of one fortnight are no surer than a handful', () => {
    const from = day('2027-02-01');
    const crowd = Array.from({ length: 100 }, (_, index) => ({ day: addDays(from, index % 14), tempC: 15 }));
    const few = [0, 4, 9, 13].map((ahead) => ({ day: addDays(from, ahead), tempC: 15 }));
    const [many, some] = [fitYearCurve(crowd, 'north'), fitYearCurve(few, 'north')];
    expect(many.doubtOn(from)).toBeGreaterThan(some.doubtOn(from) * 0.8);
    expect(many.doubtOn(day('2027-08-01'))).toBeGreaterThan(yearPrior('north').meanSdC * 0.8);
  });

  it('old ones give way where the rack was moved', () => {
    const old = readings({ ...cellar, meanC: 15 }, day('2020-01-01'), 730, 7, 2);
    const fresh = readings({ ...cellar, meanC: 21 }, day('2026-01-01'), 365, 7, 3);
    expect(fitYearCurve([...old, ...fresh], 'north').meanC).toBeGreaterThan(19.5);
  });

  it('of several tubs read on a day, a misread one is passed over', () => {
    const racked = readings(cellar, day('2026-01-01'), 365, 7).flatMap((point, week) =>
      [-1, 0, 1].map((shelf) => ({ day: point.day, tempC: week === 20 && shelf === 1 ? 40 : point.tempC + shelf })),
    );
    expect(worst(fitYearCurve(racked, 'north'), cellar)).toBeLessThan(1.5);
  });
});

describe('any readings', () => {
  const from = day('2026-01-01');
  const point = fc.record({
    ahead: fc.integer({ min: 0, max: 1500 }),
    tempC: fc.double({ min: 0, max: 40, noNaN: true }),
  });

  it('give a curve inside what can be, sure of no more than the thermometer, in any order', () => {
    fc.assert(
      fc.property(
        fc.array(point, { maxLength: 60 }),
        fc.constantFrom('north' as const, 'south' as const, null),
        fc.integer({ min: 0, max: 2000 }),
        (read, hint, ahead) => {
          const points = read.map(({ ahead: days, tempC }) => ({ day: addDays(from, days), tempC }));
          const curve = fitYearCurve(points, hint);
          const on = addDays(from, ahead);
          expect(curve.meanOn(on)).toBeGreaterThan(-15);
          expect(curve.meanOn(on)).toBeLessThan(55);
          expect(curve.sdOn(on)).toBeGreaterThan(0.2);
          expect(curve.sdOn(on)).toBeLessThan(20);
          expect(curve.doubtOn(on)).toBeLessThan(curve.sdOn(on));
          expect(fitYearCurve(points.toReversed(), hint).meanOn(on)).toBeCloseTo(curve.meanOn(on), 6);
          expect(Math.abs(curve.meanOn(addDays(on, 1)) - curve.meanOn(on))).toBeLessThan(0.5);
        },
      ),
    );
  });

  it('hold what was: four days of five lie inside 80 % of a fitted year', () => {
    const points = readings(cellar, day('2024-01-01'), 800, 5, 9);
    const curve = fitYearCurve(points, 'north');
    const ahead = readings(cellar, addDays(day('2024-01-01'), 800), 365, 1, 11);
    const inside = ahead.filter(({ day: on, tempC }) => Math.abs(tempC - curve.meanOn(on)) <= 1.2816 * curve.sdOn(on));
    expect(inside.length / ahead.length).toBeGreaterThan(0.68);
    expect(inside.length / ahead.length).toBeLessThan(0.92);
  });

  it('of thousands are taken whole', () => {
    const points = Array.from({ length: 4 }, (_, tub) => readings(cellar, day('2024-01-01'), 1000, 1, tub)).flat();
    const curve = fitYearCurve(points, 'north');
    expect(curve.readings).toBe(4000);
    expect(worst(curve, cellar)).toBeLessThan(0.6);
  });
});
