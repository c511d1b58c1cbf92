import { describe, expect, it } from 'vitest';
import {
  type Belief,
  inferNitrate,
  type NitrateEstimate,
  type NitratePolicy,
  planNitrate,
  type TubEvent,
} from '../../../../src/domain/index.ts';
import { bucketSizes } from '../../../../src/domain/water/nitrate/bucket.ts';
import { kitStepsMgL } from './worlds.ts';

const policy: NitratePolicy = {
  sourceNitrateMgL: 5,
  nitrateLimitMgL: 20,
  changeMinPercent: 10,
  changeMaxPercent: 25,
  changeIntervalDays: 7,
};

/** A tub that is known exactly. */
const known = (nowMgL: number, risePerDay: number): Pick<NitrateEstimate, 'beliefs' | 'readings'> => ({
  readings: 9,
  beliefs: [{ nowMgL, risePerDay, weight: 1 }],
});

describe('litres that a bucket measures', () => {
  it.each([
    [2, 5, [2, 2.5, 3, 3.5, 4, 4.5, 5]],
    [0.3, 0.75, [0.5]],
    [0.1, 0.25, [0.1, 0.2]],
    [1.9, 1.95, [1.9]],
  ])('from %d to %d', (least, most, sizes) => {
    expect(bucketSizes(least, most)).toEqual(sizes);
  });
});

describe('the next change', () => {
  it('is the least where the tub is far under the limit', () => {
    const plan = planNitrate(known(8, 0.1), policy, 20, 7);
    expect(plan).toMatchObject({ reason: 'least', litres: 2, fraction: 0.1, dueInDays: 0, changes: 1, everyDays: 7 });
    expect(plan.daysToLimit.median).toBeCloseTo(120, 9);
    expect(plan.remedy).toBeNull();
  });

  it('is the smallest that keeps the limit until the next one', () => {
    // (1 − f)·20 + 5f + 7·0.3 ≤ 20 from f = 0.14, so 3 L of 20; the plateau 5 + 2.1/0.15 = 19 holds too.
    const plan = planNitrate(known(20, 0.3), policy, 20, 7);
    expect(plan).toMatchObject({ reason: 'limit', litres: 3 });
    expect(plan.afterMgL.median).toBeCloseTo(17.75, 9);
    expect(plan.chanceUnder).toBe(1);
  });

  it('holds the plateau before the tub gets there', () => {
    // 5 + 7·0.4/f ≤ 20 from f = 0.187.
    expect(planNitrate(known(10, 0.4), policy, 20, 7)).toMatchObject({ reason: 'plateau', litres: 4 });
  });

  it('wants the limit kept by 95 % of what may be true', () => {
    const beliefs = (share: number): Belief[] => [
      { nowMgL: 15, risePerDay: 0.05, weight: 1 - share },
      { nowMgL: 22, risePerDay: 0.05, weight: share },
    ];
    expect(planNitrate({ beliefs: beliefs(0.04), readings: 3 }, policy, 20, 7).litres).toBe(2);
    expect(planNitrate({ beliefs: beliefs(0.06), readings: 3 }, policy, 20, 7).litres).toBe(3);
  });

  it('is never outside the bounds, and says when the most may not do', () => {
    const plan = planNitrate(known(24, 0.3), policy, 20, 7);
    expect(plan).toMatchObject({ reason: 'capped', litres: 5, changes: 1 });
    expect(plan.afterMgL.median).toBeCloseTo(19.25, 9);
    expect(plan.chanceUnder).toBe(0);
  });

  it('waits for the interval, and plans for the level of that day', () => {
    const plan = planNitrate(known(15, 0.5), policy, 20, 2);
    expect(plan.dueInDays).toBe(5);
    expect(plan.afterMgL.median).toBeCloseTo((1 - plan.fraction) * 17.5 + plan.fraction * 5, 9);
    expect(planNitrate(known(15, 0.5), policy, 20, null).dueInDays).toBe(0);
    expect(planNitrate(known(15, 0.5), policy, 20, 30).dueInDays).toBe(0);
  });

  it('is a series where one is too small', () => {
    // From 80 to 20 over 5 at 25 %: 61.25, 47.19, 36.64, 28.73, 22.80, 18.35.
    const plan = planNitrate(known(80, 0), policy, 20, 7);
    expect(plan).toMatchObject({ reason: 'steps', litres: 5, changes: 6, everyDays: 3, dueInDays: 0 });
    const second = planNitrate(known(61.25, 0), policy, 20, 0);
    expect(second).toMatchObject({ reason: 'steps', changes: 5, dueInDays: 3 });
    // 24 to 20 takes one more, and that one can wait for the interval; while the tub rises by 3 until then, it can't.
    expect(planNitrate(known(24, 0), policy, 20, 0)).toMatchObject({ dueInDays: 7, everyDays: 7, changes: 1 });
    expect(planNitrate(known(24, 3 / 7), policy, 20, 0)).toMatchObject({ reason: 'steps', dueInDays: 3 });
    expect(planNitrate(known(19.9, 0), policy, 20, 0)).toMatchObject({ dueInDays: 7 });
  });

  it('says that source water over the limit makes it unreachable, with the floor and what helps', () => {
    const plan = planNitrate(known(40, 0.25), { ...policy, sourceNitrateMgL: 30 }, 20, 7);
    expect(plan).toMatchObject({ reason: 'source-too-high', litres: 5, everyDays: 7, changes: null });
    expect(plan.floorMgL).toBeCloseTo(37, 9);
    expect(plan.remedy?.sourceAtMostMgL).toBeCloseTo(13, 9);
    expect(plan.remedy).toMatchObject({ riseAtMostPerDay: null, everyDays: null });
    // A tub cleaner than its source: no more than the least.
    expect(planNitrate(known(25, 0.25), { ...policy, sourceNitrateMgL: 30 }, 20, 7).litres).toBe(2);
  });

  it('says that the rise makes it unreachable', () => {
    const plan = planNitrate(known(30, 0.8), policy, 20, 7);
    expect(plan).toMatchObject({ reason: 'rise-too-high', litres: 5 });
    expect(plan.floorMgL).toBeCloseTo(27.4, 9);
    expect(plan.remedy?.sourceAtMostMgL).toBeNull();
    expect(plan.remedy?.riseAtMostPerDay).toBeCloseTo(15 / 28, 9);
    expect(plan.remedy?.everyDays).toBe(4);
  });

  it('foretells no day for a tub that does not rise, and today for one over the limit', () => {
    expect(planNitrate(known(10, 0), policy, 20, 7).daysToLimit).toEqual({ median: null, soonest: null });
    expect(planNitrate(known(10, -0.2), policy, 20, 7).daysToLimit.median).toBeNull();
    expect(planNitrate(known(25, 0.2), policy, 20, 7).daysToLimit).toEqual({ median: 0, soonest: 0 });
  });

  it('is the least, and says so, before any reading', () => {
    const plan = planNitrate(inferNitrate([], 0, 5, kitStepsMgL), policy, 20, null);
    expect(plan).toMatchObject({ reason: 'no-reading', litres: 2, changes: 1, dueInDays: 0, remedy: null });
  });

  it('does with what is inferred', () => {
    const weekly = [40, 40, 40, 40, 40].flatMap((nitrateMgL, week): TubEvent[] => [
      { of: 'reading', day: week * 7, nitrateMgL },
      { of: 'change', day: week * 7, fraction: 0.1 },
    ]);
    const plan = planNitrate(inferNitrate(weekly, 28, 5, kitStepsMgL), policy, 20, 0);
    expect(plan).toMatchObject({ reason: 'steps', litres: 5, dueInDays: 3, everyDays: 3 });
    expect(plan.changes).toBeGreaterThanOrEqual(2);
    expect(plan.changes).toBeLessThanOrEqual(6);
  });
});
