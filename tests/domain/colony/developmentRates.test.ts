import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  berriedFactor,
  berriedShare,
  broodRestDays,
  broodSize,
  coolestEggsC,
  crowding,
  crowdingSpread,
  type DevelopmentSettings,
  dailyDeath,
  daysToSaleable24C,
  developmentDefaults,
  developmentStages,
  eggDaysFactor,
  eggProgressPerDay,
  eggsLostC,
  femaleShare,
  growthPerDay,
  growthSpread,
  incubationDays,
  lifeDays,
  type RateSpread,
  restDaysFactor,
  shrimpletDays24C,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const anyTempC = fc.double({ min: -5, max: 45, noNaN: true });
const stage = fc.constantFrom(...developmentStages);
const inOrder = ({ low, median, high }: RateSpread): void => {
  expect(low).toBeLessThanOrEqual(median);
  expect(median).toBeLessThanOrEqual(high);
};

describe('days eggs are carried', () => {
  it('fall from 16 to 32 °C and are none beyond', () => {
    fc.assert(
      fc.property(fc.double({ min: coolestEggsC, max: 31.8, noNaN: true }), (tempC) => {
        const [cooler, warmer] = [incubationDays(tempC), incubationDays(tempC + 0.1)];
        expect(cooler).toBeGreaterThan(warmer ?? Number.NaN);
        expect(warmer).toBeGreaterThan(11.9);
        expect(cooler).toBeLessThan(85);
        expect((cooler ?? 0) * eggProgressPerDay(tempC)).toBeCloseTo(1, 12);
      }),
    );
    for (const tempC of [-2, 10, 15.9, 32, 40]) expect(incubationDays(tempC)).toBeNull();
  });

  it('add up over days of any temperature', () => {
    const spring = Array.from({ length: 60 }, (_, index) => 18 + index / 10);
    let progress = 0;
    const hatched = spring.findIndex((tempC) => {
      progress += eggProgressPerDay(tempC);
      return progress >= 1;
    });
    expect(hatched).toBeGreaterThan(incubationDays(22) ?? Number.NaN);
    expect(hatched).toBeLessThan(incubationDays(18) ?? Number.NaN);
  });
});

describe('progress of eggs, growth and broods', () => {
  it('never go backwards as it warms to the best temperature, nor forwards beyond it', () => {
    const rates: readonly (readonly [(tempC: number) => number, best: number])[] = [
      [eggProgressPerDay, 45],
      [growthPerDay, 28],
      [berriedShare, 28],
      [(tempC) => -dailyDeath('saleable', tempC).median, 25],
      [(tempC) => -dailyDeath('egg', tempC).median, 25],
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...rates),
        anyTempC,
        fc.double({ min: 0, max: 3, noNaN: true }),
        ([rate, best], tempC, step) => {
          const change = rate(tempC + step) - rate(tempC);
          if (tempC + step <= best) expect(change).toBeGreaterThanOrEqual(0);
          else if (tempC >= best) expect(change).toBeLessThanOrEqual(0);
        },
      ),
    );
  });

  it('stop when it is cool and when it is hot', () => {
    expect([8, 11].map(growthPerDay)).toEqual([0, 0]);
    expect([8, 13].map((tempC) => eggProgressPerDay(tempC))).toEqual([0, 0]);
    expect([8, 16, 32, 40].map(berriedShare)).toEqual([0, 0, 0, 0]);
    expect([8, 17.9, 32, 40].map((tempC) => broodRestDays(tempC))).toEqual([null, null, null, null]);
    expect(growthPerDay(36)).toBe(0);
    expect(growthPerDay(24)).toBe(1);
    expect(broodRestDays(24)).toBeCloseTo(12, 9);
  });

  it('make no jump: a tenth of a degree moves none by more than stated', () => {
    const rates: readonly (readonly [(tempC: number) => number, most: number])[] = [
      [eggProgressPerDay, 0.0007],
      [growthPerDay, 0.026],
      [berriedShare, 0.017],
      [(tempC) => femaleShare(tempC).median, 0.0051],
      [(tempC) => femaleShare(tempC).low, 0.0061],
      [(tempC) => femaleShare(tempC).high, 0.0071],
    ];
    fc.assert(
      fc.property(fc.constantFrom(...rates), anyTempC, ([rate, most], tempC) => {
        expect(Math.abs(rate(tempC + 0.1) - rate(tempC))).toBeLessThanOrEqual(most);
      }),
    );
  });

  it('leave no share outside 0 to 1', () => {
    fc.assert(
      fc.property(anyTempC, (tempC) => {
        expect(berriedShare(tempC)).toBeGreaterThanOrEqual(0);
        expect(berriedShare(tempC) * berriedFactor.high).toBeLessThan(1);
        inOrder(femaleShare(tempC));
        expect(femaleShare(tempC).low).toBeGreaterThan(0.1);
        expect(femaleShare(tempC).high).toBeLessThan(0.9);
        inOrder(growthSpread(tempC));
        expect(growthPerDay(tempC)).toBeLessThanOrEqual(1.1);
      }),
    );
  });

  it('rest females no longer than a brood takes in warmth, and long when cool', () => {
    expect(broodRestDays(26)).toBeLessThan(incubationDays(26) ?? Number.NaN);
    expect(broodRestDays(18)).toBeCloseTo(75, 6);
  });
});

describe('death', () => {
  it('is an ordered, positive hazard under 2 a day', () => {
    fc.assert(
      fc.property(stage, anyTempC, (of, tempC) => {
        const hazard = dailyDeath(of, tempC);
        inOrder(hazard);
        expect(hazard.low).toBeGreaterThan(0);
        expect(hazard.high).toBeLessThanOrEqual(2);
      }),
    );
  });

  it('changes by less than 1.4 times in a tenth of a degree', () => {
    fc.assert(
      fc.property(stage, anyTempC, (of, tempC) => {
        const ratio = dailyDeath(of, tempC + 0.1).median / dailyDeath(of, tempC).median;
        expect(Math.abs(Math.log(ratio))).toBeLessThan(Math.log(1.4));
      }),
    );
  });

  it('takes shrimplets before juveniles before saleable animals', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 35, noNaN: true }), (tempC) => {
        expect(dailyDeath('shrimplet', tempC).median).toBeGreaterThan(dailyDeath('juvenile', tempC).median);
        expect(dailyDeath('juvenile', tempC).median).toBeGreaterThan(dailyDeath('saleable', tempC).median);
      }),
    );
  });

  it('leaves 60 % of the young at 15 mm, 36 to 82 % in the band', () => {
    const lived = (of: 'median' | 'low' | 'high'): number =>
      Math.exp(
        -shrimpletDays24C * dailyDeath('shrimplet', 24)[of] -
          (developmentDefaults.daysTo15MmAt24C - shrimpletDays24C) * dailyDeath('juvenile', 24)[of],
      );
    expect(lived('median')).toBeCloseTo(0.6, 9);
    expect(lived('low')).toBeCloseTo(0.815, 2);
    expect(lived('high')).toBeCloseTo(0.36, 2);
  });

  it('takes a tenth to a quarter of a stock over a winter of four months at 14 °C (common practice, no source)', () => {
    const lost = 1 - Math.exp(-120 * dailyDeath('saleable', 14).median);
    expect(lost).toBeGreaterThan(0.1);
    expect(lost).toBeLessThan(0.25);
  });
});

describe('size', () => {
  const mm = fc.double({ min: 0, max: 40, noNaN: true });

  it('takes ever longer, without end to the numbers', () => {
    fc.assert(
      fc.property(mm, (length) => {
        const days = daysToSaleable24C(length);
        inOrder(days);
        expect(daysToSaleable24C(length + 0.5).median).toBeGreaterThanOrEqual(days.median);
        expect(days.high).toBeLessThan(900);
      }),
    );
    expect(daysToSaleable24C(2.3).median).toBe(0);
    expect(daysToSaleable24C(15).median).toBeCloseTo(75, 9);
  });

  it('is saleable in the 10 to 13 weeks of practice for 15 to 20 mm, by the band (common practice, no source)', () => {
    expect(daysToSaleable24C(15).median).toBeGreaterThan(70);
    expect(daysToSaleable24C(17.5).low).toBeLessThan(91);
    expect(daysToSaleable24C(20).low).toBeLessThan(91);
  });

  it('brings more young, smoothly, and none to the immature', () => {
    fc.assert(
      fc.property(mm, (length) => {
        const [young, more] = [broodSize(length), broodSize(length + 0.1)];
        inOrder(young);
        expect(more.median).toBeGreaterThanOrEqual(young.median);
        expect(more.median - young.median).toBeLessThan(1.2);
        expect(young.high).toBeLessThan(160);
      }),
    );
    expect(broodSize(10).high).toBe(0);
  });
});

describe('crowding', () => {
  it('does not matter up to 2.5 a litre, then ever more, never all', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 500, noNaN: true }), (perLitre) => {
        inOrder(crowdingSpread(perLitre));
        expect(crowding(perLitre)).toBeLessThanOrEqual(1);
        expect(crowding(perLitre)).toBeGreaterThan(0);
        expect(crowding(perLitre + 1)).toBeLessThanOrEqual(crowding(perLitre));
        expect(crowding(perLitre) - crowding(perLitre + 0.1)).toBeLessThan(0.0081);
      }),
    );
    expect([0, 2.5].map(crowding)).toEqual([1, 1]);
    expect([5, 10, 20].map((perLitre) => crowding(perLitre).toFixed(2))).toEqual(['0.83', '0.63', '0.42']);
  });
});

describe('what the couple sets', () => {
  const theirs: DevelopmentSettings = {
    eggDaysAt24C: 26,
    daysTo15MmAt24C: 100,
    youngAt20Mm: 25,
    restDaysAt24C: 18,
    youngSurvival: 0.4,
  };

  it('moves its rate at every temperature', () => {
    expect(incubationDays(24, theirs)).toBeCloseTo(26, 9);
    expect((incubationDays(20, theirs) ?? 0) / (incubationDays(20) ?? 1)).toBeCloseTo(26 / 21, 9);
    expect(daysToSaleable24C(15, theirs).median).toBeCloseTo(100, 9);
    expect(broodSize(20, theirs).median).toBeCloseTo(25, 9);
    expect(broodRestDays(24, theirs)).toBeCloseTo(18, 9);
    const lost = 30 * dailyDeath('shrimplet', 24, theirs).median + 70 * dailyDeath('juvenile', 24, theirs).median;
    expect(Math.exp(-lost)).toBeCloseTo(0.4, 9);
  });

  it('leaves eggs and grown animals their own deaths', () => {
    for (const of of ['egg', 'saleable'] as const) expect(dailyDeath(of, 22, theirs)).toEqual(dailyDeath(of, 22));
  });
});

it('every factor is around 1, every spread in order', () => {
  for (const factor of [eggDaysFactor, restDaysFactor, berriedFactor]) {
    inOrder(factor);
    expect(factor.median).toBe(1);
  }
  inOrder(lifeDays);
  expect(eggsLostC).toBe(32);
});
