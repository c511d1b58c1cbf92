import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inferNitrate, readInterval, type TubEvent } from '../../../../src/domain/index.ts';
import { normalBelow } from '../../../../src/domain/water/nitrate/normal.ts';
import { kitStepsMgL } from './worlds.ts';

fc.configureGlobal({ seed: 20270502 });

/** Weekly readings, each followed at once by a change. */
const weekly = (values: readonly number[], fraction = 0.15): TubEvent[] =>
  values.flatMap((nitrateMgL, week): TubEvent[] => [
    { of: 'reading', day: week * 7, nitrateMgL },
    ...(fraction > 0 ? [{ of: 'change', day: week * 7, fraction } as const] : []),
  ]);
const times = (value: number, count: number): number[] => Array.from({ length: count }, () => value);
const infer = (events: readonly TubEvent[], nowDay: number, sourceMgL = 5) =>
  inferNitrate(events, nowDay, sourceMgL, kitStepsMgL);

describe('what a reading says', () => {
  it.each([
    [0, 0, 2.5, true],
    [5, 2.5, 7.5, true],
    [40, 30, 60, true],
    [160, 120, Number.POSITIVE_INFINITY, true],
    [250, 120, Number.POSITIVE_INFINITY, true],
    [30, 27, 33, false],
    [1, 0.5, 1.5, false],
    [0.2, 0, 0.7, false],
  ])('%d mg/L stands for %d to %d', (typed, lowMgL, highMgL, isStep) => {
    const found = readInterval(typed, kitStepsMgL);
    expect(found.lowMgL).toBeCloseTo(lowMgL, 9);
    expect(found.highMgL).toBeCloseTo(highMgL, 9);
    expect(found.isStep).toBe(isStep);
  });

  // Standard normal table, Abramowitz & Stegun 1964, table 26.1 (from memory).
  it.each([
    [0, 0.5],
    [1, 0.8413447],
    [1.2815516, 0.9],
    [1.96, 0.9750021],
    [3, 0.9986501],
    [-2, 0.0227501],
  ])('the normal distribution below %d is %d', (z, below) => {
    expect(normalBelow(z)).toBeCloseTo(below, 6);
  });
});

describe('nitrate of a tub', () => {
  it('without readings is the wide prior', () => {
    const { nowMgL, risePerDay, readings } = infer([], 0);
    expect(readings).toBe(0);
    expect(nowMgL.high / nowMgL.low).toBeGreaterThan(10);
    expect(risePerDay.low).toBeLessThan(0.15);
    expect(risePerDay.high).toBeGreaterThan(0.7);
  });

  it('after one reading is its step', () => {
    const { nowMgL, readings } = infer(weekly([20], 0), 0);
    expect(readings).toBe(1);
    expect(nowMgL.low).toBeGreaterThan(14);
    expect(nowMgL.high).toBeLessThan(30);
  });

  it('leans on the other tubs while it is new', () => {
    const prior = { medianPerDay: 0.9, logSd: 0.35 };
    const { risePerDay } = inferNitrate(weekly([20], 0), 0, 5, kitStepsMgL, prior);
    expect(risePerDay.median).toBeGreaterThan(0.75);
    expect(risePerDay.median).toBeLessThan(1);
    expect(risePerDay.high / risePerDay.low).toBeLessThan(3);
  });

  it('after a year of 20s at 15 % a week knows the rise that holds it there', () => {
    // Plateau before the change: 5 + 7·g/0.15 between 15 and 30, so g between 0.21 and 0.54.
    const { risePerDay, readings } = infer(weekly(times(20, 52)), 357);
    expect(readings).toBe(18);
    expect(risePerDay.low).toBeGreaterThan(0.19);
    expect(risePerDay.high).toBeLessThan(0.56);
  });

  it('of a year of zeros stays at zero, although the source water holds some', () => {
    expect(infer(weekly(times(0, 52)), 357).nowMgL.high).toBeLessThan(2.5);
    expect(infer(weekly(times(0, 52)), 357, 0).nowMgL.high).toBeLessThan(2.5);
    expect(infer(weekly(times(0, 52)), 357).risePerDay.high).toBeLessThan(0);
  });

  it('of a year at the top step is open upwards', () => {
    const { nowMgL, risePerDay } = infer(weekly(times(160, 52)), 357);
    expect(nowMgL.low).toBeGreaterThan(100);
    expect(nowMgL.high).toBeGreaterThan(200);
    expect(risePerDay.low).toBeGreaterThan(1.5);
  });

  it('falls where plants take it up', () => {
    const { risePerDay } = infer(weekly([40, 40, 40, 40, 20, 20, 20, 20, 20, 20, 10, 10, 10], 0), 84);
    expect(risePerDay.high).toBeLessThan(0);
    expect(risePerDay.low).toBeLessThan(risePerDay.high);
  });

  it('stands above source water over the limit', () => {
    const { nowMgL } = infer(weekly(times(40, 10)), 63, 40);
    expect(nowMgL.low).toBeGreaterThan(39);
    expect(nowMgL.high).toBeLessThan(60);
  });

  it('begins anew when two readings do not follow from those before', () => {
    const { nowMgL } = infer(weekly([80, 80, 80, 80, 80, 20, 20]), 42);
    expect(nowMgL.low).toBeGreaterThan(12);
    expect(nowMgL.high).toBeLessThan(30);
  });

  it('doubts both ways after one reading that does not follow', () => {
    const { nowMgL } = infer(weekly([20, 20, 20, 20, 20, 160]), 35);
    expect(nowMgL.low).toBeLessThan(30);
    expect(nowMgL.high).toBeGreaterThan(100);
  });

  it('rises by what top-ups bring', () => {
    const tops = times(0, 8).map((_, week): TubEvent => ({ of: 'topup', day: week * 7 + 1, fraction: 0.1, mgL: 50 }));
    const events = [...weekly([5, 10, 10, 20, 20, 40, 40, 40], 0), ...tops];
    const without = infer(weekly([5, 10, 10, 20, 20, 40, 40, 40], 0), 49);
    expect(infer(events, 49).risePerDay.median).toBeLessThan(0.7 * without.risePerDay.median);
  });

  it('counts a reading logged twice once, takes any order, and leaves out what is not of the window', () => {
    const events = weekly([20, 20, 40]);
    const plain = infer(events, 20);
    const odd: TubEvent[] = [
      { of: 'reading', day: 14.01, nitrateMgL: 40 },
      { of: 'reading', day: -200, nitrateMgL: 160 },
      { of: 'reading', day: 21, nitrateMgL: 160 },
      { of: 'change', day: 3, fraction: 1.5 },
      { of: 'reading', day: 4, nitrateMgL: Number.NaN },
    ];
    const lastChange = events.slice(-1);
    expect(infer([...odd, ...events.slice(0, -1).reverse(), ...lastChange], 20).readings).toBe(3);
    expect(infer([...events].reverse(), 20)).toEqual(plain);
  });

  it('gives beliefs that agree with its intervals', () => {
    const { beliefs, nowMgL, risePerDay } = infer(weekly(times(20, 8)), 55);
    expect(beliefs.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9);
    const inside = (low: number, high: number, of: 'nowMgL' | 'risePerDay'): number =>
      beliefs.reduce((sum, belief) => sum + (belief[of] >= low && belief[of] <= high ? belief.weight : 0), 0);
    expect(inside(nowMgL.low, nowMgL.high, 'nowMgL')).toBeCloseTo(0.8, 1);
    expect(inside(risePerDay.low, risePerDay.high, 'risePerDay')).toBeCloseTo(0.8, 1);
  });

  it('is finite and ordered whatever was logged', () => {
    const event = fc.oneof(
      fc.record({
        of: fc.constant('reading' as const),
        day: fc.integer({ min: -10, max: 100 }),
        nitrateMgL: fc.constantFrom(0, 3, 5, 20, 33, 80, 160, 500),
      }),
      fc.record({
        of: fc.constant('change' as const),
        day: fc.integer({ min: -10, max: 100 }),
        fraction: fc.double({ min: 0, max: 1, noNaN: true }),
      }),
      fc.record({
        of: fc.constant('topup' as const),
        day: fc.integer({ min: -10, max: 100 }),
        fraction: fc.double({ min: 0, max: 0.3, noNaN: true }),
        mgL: fc.integer({ min: 0, max: 60 }),
      }),
    );
    const kits = fc.constantFrom<readonly number[]>(kitStepsMgL, [0, 10, 25, 50, 100, 250], [5], []);
    fc.assert(
      fc.property(fc.array(event, { maxLength: 20 }), fc.constantFrom(0, 5, 60), kits, (events, sourceMgL, steps) => {
        const { nowMgL, risePerDay, beliefs } = inferNitrate(events, 90, sourceMgL, steps);
        for (const { low, median, high } of [nowMgL, risePerDay]) {
          expect(Number.isFinite(low) && Number.isFinite(high)).toBe(true);
          expect(low).toBeLessThanOrEqual(median);
          expect(median).toBeLessThanOrEqual(high);
        }
        expect(nowMgL.low).toBeGreaterThanOrEqual(0);
        expect(beliefs).toHaveLength(400);
      }),
      { numRuns: 60 },
    );
  });
});
