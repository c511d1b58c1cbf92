import { describe, expect, it } from 'vitest';
import {
  airOxygenShare,
  ammoniaHours,
  bodyMassG,
  coldAfterHours,
  courseOf,
  filledBag,
  gasOxygenMgL,
  hotAfterHours,
  mildFigures,
  oxygenAlong,
  oxygenHours,
  oxygenTransferLHDm2,
  safeHoursOf,
  strictFigures,
  surfaceDm2,
  warmestC,
} from '../../../src/domain/index.ts';

const still = (tempC: number) => ({ startC: tempC, warmC: tempC, coldC: tempC });
const travel = { lengthMm: 15, ph: 7.4, way: still(20) };

describe('the mass of an animal', () => {
  it('grows with the cube of its length, from 0.007 to 0.013 mg/mm³ as sources differ', () => {
    expect(bodyMassG(15, strictFigures.massMgMm3)).toBeCloseTo(0.04395, 9);
    expect(bodyMassG(30, strictFigures.massMgMm3)).toBeCloseTo(8 * 0.04395, 9);
    expect(bodyMassG(17.5, mildFigures.massMgMm3)).toBeCloseTo(0.037215, 9);
    expect(strictFigures.massMgMm3 / mildFigures.massMgMm3).toBeCloseTo(1.88, 2);
  });
});

describe('the surface of a bag', () => {
  it('is a side of a cube, or half of the six sides of one', () => {
    expect(filledBag('ordinary', 10, 0.4)).toEqual({
      ...{ kind: 'ordinary', animals: 10, waterL: 0.4, gasL: 0.8 },
      gasOxygenShare: airOxygenShare,
    });
    expect(surfaceDm2(filledBag('ordinary', 10, 9))).toBeCloseTo(9, 9);
    expect(filledBag('breathable', 10, 0.4).gasL).toBe(0);
    expect(surfaceDm2(filledBag('breathable', 10, 1))).toBeCloseTo(3, 9);
  });

  it('lets oxygen in at half a centimetre an hour, through a film less than that', () => {
    const [step] = courseOf({ ...travel, way: still(25) }, strictFigures).steps;
    if (step === undefined) throw new Error('no step');
    expect(oxygenTransferLHDm2({ kind: 'ordinary' }, step.at, strictFigures.surfaceMH)).toBeCloseTo(0.05, 9);
    // 300 mL·mil/(100 in²·day·atm) are 4650 mL/(m²·day·atm), 276.6 mg/(m²·h·atm); water holds 39.4 g/m³ by atm: 0.70 cm/h of water.
    const bySquare = oxygenTransferLHDm2({ kind: 'breathable' }, step.at, strictFigures.surfaceMH);
    expect(1 / (10 / bySquare - 1 / 0.005)).toBeCloseTo(0.00701, 5);
  });
});

describe('the oxygen of a bag', () => {
  it('comes to what the surface brings in', () => {
    const bag = filledBag('ordinary', 1, 1);
    const course = courseOf(travel, mildFigures);
    const mgL = oxygenAlong(bag, course, () => true)[1].mgL;
    const usedMgH = course.massG * (course.steps[0]?.at.oxygenUseMgGH ?? 0);
    const perHour = 10 * 0.025 * 3 ** (2 / 3);
    const left = 1 - (usedMgH * 168) / (2 * 257.9);
    expect(mgL).toBeCloseTo(9.092 * left - usedMgH / perHour, 2);
  });

  it('runs short in a crowd while nearly all that stands above the water is left', () => {
    const crowd = filledBag('ordinary', 40, 0.3);
    const course = courseOf(travel, strictFigures);
    expect(oxygenHours(crowd, course)).toBeLessThan(2);
    const perHour = 40 * course.massG * (course.steps[0]?.at.oxygenUseMgGH ?? 0);
    expect((crowd.gasL * gasOxygenMgL(crowd.gasOxygenShare)) / perHour).toBeGreaterThan(100);
  });

  it('runs out at once where warm water holds too little from the start', () => {
    const course = { ...courseOf(travel, strictFigures), startSaturationMgL: 3.9 };
    expect(oxygenHours(filledBag('ordinary', 1, 1), course)).toBe(0);
  });
});

describe('the warmth on the way', () => {
  it('is reached by a small box in two hours, left by a large one in eight', () => {
    expect(warmestC(20, 30, 2)).toBeCloseTo(30 - 10 / Math.E, 9);
    expect(warmestC(20, 10, 8)).toBeCloseTo(10 + 10 / Math.E, 9);
    expect(warmestC(20, 20, 5)).toBe(20);
  });

  it('ends the time of a bag above 30 °C, and the cold is told apart', () => {
    // 20 to 30 °C in air of 35 °C: 2·ln(15/5).
    const hot = { startC: 20, warmC: 35, coldC: 20 };
    expect(hotAfterHours(hot)).toBeCloseTo(2 * Math.log(3), 9);
    expect(safeHoursOf(filledBag('ordinary', 1, 1), { ...travel, way: hot })).toEqual({
      hours: hotAfterHours(hot),
      limit: 'heat',
    });
    expect(hotAfterHours({ startC: 31, warmC: 20, coldC: 20 })).toBe(0);
    expect(hotAfterHours({ startC: 20, warmC: 30, coldC: 20 })).toBe(Number.POSITIVE_INFINITY);
    const cold = { startC: 20, warmC: 20, coldC: 2 };
    expect(coldAfterHours(cold)).toBeCloseTo(2 * Math.log(18 / 3), 9);
    expect(coldAfterHours(still(5))).toBe(0);
    expect(coldAfterHours(still(5.1))).toBe(Number.POSITIVE_INFINITY);
    expect(safeHoursOf(filledBag('ordinary', 10, 0.4), { ...travel, way: cold })).toEqual(
      safeHoursOf(filledBag('ordinary', 10, 0.4), travel),
    );
  });
});

describe('the safe hours of a bag', () => {
  it('end with ammonia where the water is little, with oxygen where the animals are many', () => {
    // 10 of 43.95 mg at 20 °C give off 0.0297 mg N an hour; at pH 7.4 0.05 mg/L NH3-N is 5.1 mg N/L: 2.03 mg in 0.4 L, 68.5 h.
    const ten = safeHoursOf(filledBag('ordinary', 10, 0.4), travel);
    expect(ten.limit).toBe('ammonia');
    expect(ten.hours).toBeCloseTo(68.5, 0);
    expect(safeHoursOf(filledBag('ordinary', 20, 0.6), travel).limit).toBe('oxygen');
    expect(safeHoursOf(filledBag('ordinary', 1, 1), { ...travel, way: still(8) })).toEqual({ hours: 168, limit: null });
  });

  it('are bounded in acid water by the one-hour criterion for total ammonia', () => {
    // 48.8 mg N/L at pH 6.5 and under; ten give off 0.0297 mg N an hour into 10 mL.
    const acid = courseOf({ ...travel, ph: 5 }, strictFigures);
    expect(ammoniaHours(filledBag('ordinary', 10, 0.01), acid)).toBeCloseTo((48.8 * 0.01) / 0.0297, 1);
  });
});
