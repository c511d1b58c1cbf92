import { describe, expect, it } from 'vitest';
import {
  type BagQuestion,
  bagsInAll,
  courseOf,
  filledBag,
  isSafeFor,
  planBags,
  strictFigures,
  waterInAllL,
} from '../../../src/domain/index.ts';

const still = (tempC: number) => ({ startC: 20, warmC: tempC, coldC: tempC });
const ask = (more: Partial<BagQuestion> = {}) =>
  planBags({
    ...{ kind: 'ordinary', animals: 10, lengthMm: 15, hours: 72, ph: 7.4, khDkh: 5, way: still(20) },
    ...more,
  });

describe('a bag plan', () => {
  it('has the least water that lasts, with twice as much air', () => {
    const plan = ask();
    expect(plan).toMatchObject({
      lasts: true,
      fillings: [{ bags: 1, animals: 10, waterL: 0.45, airL: 0.9 }],
      waterL: 0.45,
      safeHours: 72,
      limit: 'ammonia',
      hotAfter: null,
      coldAfter: null,
      mildWaterL: 0.2,
    });
    const course = courseOf(plan.question, strictFigures);
    expect(isSafeFor(filledBag('ordinary', 10, 0.45), course, 72)).toBe(true);
    expect(isSafeFor(filledBag('ordinary', 10, 0.4), course, 72)).toBe(false);
  });

  it('spreads more than a bag holds evenly, each bag filled for its own number', () => {
    const plan = ask({ animals: 45 });
    expect(plan.fillings.reduce((sum, { bags, animals }) => sum + bags * animals, 0)).toBe(45);
    expect(Math.max(...plan.fillings.map(({ animals }) => animals))).toBeLessThanOrEqual(20);
    expect(plan.waterL).toBeCloseTo(waterInAllL(plan.fillings), 9);
    expect(bagsInAll(ask({ animals: 12 }).fillings)).toBe(1);
    expect(ask({ animals: 21, way: still(8) }).fillings).toEqual([
      { bags: 1, animals: 11, waterL: 0.2, airL: 0.4 },
      { bags: 1, animals: 10, waterL: 0.2, airL: 0.4 },
    ]);
  });

  it('takes more bags where that takes less water', () => {
    // Oxygen decides at pH 6.8: of 20 in a bag the surface is small for the animals.
    const plan = ask({ animals: 20, ph: 6.8 });
    expect(plan.limit).toBe('oxygen');
    expect(bagsInAll(plan.fillings)).toBeGreaterThan(1);
  });

  it('tells what carbon dioxide would do, and does not count on it', () => {
    const { nh3MgNL, breathed, oxygenMgL } = ask().atTheEnd;
    expect(nh3MgNL).toBeGreaterThan(0.045);
    expect(nh3MgNL).toBeLessThanOrEqual(0.05);
    expect(breathed?.ph).toBeCloseTo(7.07, 2);
    expect(breathed?.nh3MgNL).toBeCloseTo(0.0219, 4);
    expect(oxygenMgL).toBeGreaterThanOrEqual(4);
    expect(ask({ khDkh: null }).atTheEnd.breathed).toBeNull();
    expect(ask({ kind: 'breathable' }).atTheEnd.breathed).toBeNull();
    expect(ask({ khDkh: null }).fillings).toEqual(ask().fillings);
  });

  it('fills a breathable bag without air', () => {
    expect(ask({ kind: 'breathable' }).fillings).toEqual([{ bags: 1, animals: 10, waterL: 0.5, airL: 0 }]);
  });

  it('promises what bags do last where none lasts what was asked', () => {
    const plan = ask({ hours: 150, ph: 8.6, way: still(29), lengthMm: 35 });
    expect(plan).toMatchObject({ lasts: false, limit: 'ammonia', fillings: [{ bags: 10, animals: 1, waterL: 1 }] });
    expect(plan.safeHours).toBeGreaterThan(1);
    expect(plan.safeHours).toBeLessThan(150);
    expect(ask({ hours: 200 })).toMatchObject({ lasts: false, safeHours: 168 });
  });

  it('tells of heat and cold within the hours, and plans for the rest of a cold way', () => {
    expect(ask({ way: still(34) })).toMatchObject({ lasts: false, limit: 'heat' });
    expect(ask({ way: still(34) }).hotAfter).toBeCloseTo(2 * Math.log(14 / 4), 9);
    const cold = ask({ way: still(1) });
    expect(cold).toMatchObject({ lasts: true, safeHours: 72, hotAfter: null });
    expect(cold.coldAfter).toBeCloseTo(2 * Math.log(19 / 4), 9);
  });

  it('has common practice beside it', () => {
    const { practice } = ask({ animals: 25 });
    expect(practice).toMatchObject({ fromL: 0.75, toL: 1 });
    expect(practice.fromHours).toBeGreaterThan(20);
    expect(practice.toHours).toBe(168);
    expect(ask({ animals: 2 }).practice).toMatchObject({ fromL: 0.2, toL: 0.2 });
    expect(ask({ kind: 'breathable' }).practice).toMatchObject({ fromL: 0.2, toL: 0.3 });
  });
});
