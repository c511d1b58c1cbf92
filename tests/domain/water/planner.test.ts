import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeDueOn, day, defaultBusiness, planChange } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const due = day('2027-04-13');

describe('the planned change', () => {
  it('is the least of the policy where nothing was read or the limit is kept', () => {
    expect(planChange(20, null, due, defaultBusiness)).toMatchObject({
      litres: 2,
      percent: 10,
      reason: 'no-reading',
      afterMgL: null,
      changesToLimit: null,
    });
    expect(planChange(20, 12, due, defaultBusiness)).toMatchObject({ litres: 2, reason: 'least', changesToLimit: 0 });
  });

  it('reaches the limit where one change can: 22 mg/L with source water of 5 needs 2.4 of 20 L', () => {
    expect(planChange(20, 22, due, defaultBusiness)).toMatchObject({
      litres: 2.5,
      reason: 'towards-limit',
      changesToLimit: 1,
    });
  });

  it('is capped at the most of the policy and says how many follow', () => {
    const plan = planChange(20, 40, due, defaultBusiness);
    expect(plan).toMatchObject({ litres: 5, percent: 25, reason: 'capped', changesToLimit: 3 });
    expect(plan.afterMgL).toBeCloseTo(31.25, 9);
  });

  it('tells the plain truth when the source water is the trouble', () => {
    const policy = { ...defaultBusiness, sourceNitrateMgL: 25 };
    expect(planChange(20, 40, due, policy)).toMatchObject({
      litres: 5,
      reason: 'source-too-high',
      changesToLimit: null,
    });
  });

  it('is the most of the policy where ammonia or nitrite harms, whatever the nitrate', () => {
    expect(planChange(20, 5, due, defaultBusiness, true)).toMatchObject({ litres: 5, reason: 'urgent' });
    expect(planChange(20, null, due, defaultBusiness, true)).toMatchObject({ litres: 5, reason: 'urgent' });
  });

  it('does not round under the least: 12 % of 20 L, no more and no less, is 2.4 L', () => {
    const policy = { ...defaultBusiness, changeMinPercent: 12, changeMaxPercent: 12 };
    expect(planChange(20, 60, due, policy).litres).toBe(2.4);
  });

  it('does not round away the limit: 5.1 of 21 L, where 5 would miss it and 5.5 is too much', () => {
    const before = 20 + (5.1 / (21 - 5.1)) * 15;
    expect(planChange(21, before, due, defaultBusiness)).toMatchObject({
      litres: 5.1,
      reason: 'towards-limit',
      changesToLimit: 1,
    });
  });

  const policies = fc
    .record({
      netLitres: fc.integer({ min: 10, max: 2000 }).map((tenths) => tenths / 10),
      nitrateMgL: fc.option(fc.double({ min: 0, max: 500, noNaN: true }), { nil: null }),
      sourceNitrateMgL: fc.double({ min: 0, max: 60, noNaN: true }),
      nitrateLimitMgL: fc.integer({ min: 1, max: 100 }),
      bounds: fc.tuple(fc.integer({ min: 1, max: 100 }), fc.integer({ min: 1, max: 100 })),
      isUrgent: fc.boolean(),
    })
    .map(({ bounds, ...rest }) => ({
      ...rest,
      changeMinPercent: Math.min(...bounds),
      changeMaxPercent: Math.max(...bounds),
      changeIntervalDays: 7,
    }));

  it('always lies within the bounds of the policy', () => {
    fc.assert(
      fc.property(policies, ({ netLitres, nitrateMgL, isUrgent, ...policy }) => {
        const { litres } = planChange(netLitres, nitrateMgL, due, policy, isUrgent);
        expect(litres).toBeGreaterThanOrEqual((netLitres * policy.changeMinPercent) / 100 - 1e-6);
        expect(litres).toBeLessThanOrEqual((netLitres * policy.changeMaxPercent) / 100 + 1e-6);
      }),
      { numRuns: 500 },
    );
  });

  it('is never over what reaches the limit by more than half a litre, unless the least of the policy or harm says so', () => {
    fc.assert(
      fc.property(policies, ({ netLitres, nitrateMgL, isUrgent: _, ...policy }) => {
        fc.pre(nitrateMgL !== null && policy.sourceNitrateMgL < policy.nitrateLimitMgL);
        const plan = planChange(netLitres, nitrateMgL, due, policy);
        const wanted = Math.max(
          0,
          ((nitrateMgL ?? 0) - policy.nitrateLimitMgL) / ((nitrateMgL ?? 0) - policy.sourceNitrateMgL),
        );
        const least = (netLitres * policy.changeMinPercent) / 100;
        const reaching = (nitrateMgL ?? 0) <= policy.nitrateLimitMgL ? 0 : netLitres * wanted;
        expect(plan.litres).toBeLessThanOrEqual(Math.max(least, reaching) + 0.5 + 1e-6);
      }),
      { numRuns: 500 },
    );
  });

  it('reaches the limit at once wherever it says so', () => {
    fc.assert(
      fc.property(policies, ({ netLitres, nitrateMgL, isUrgent: _, ...policy }) => {
        const plan = planChange(netLitres, nitrateMgL, due, policy);
        fc.pre(plan.reason === 'towards-limit');
        expect(plan.afterMgL).toBeLessThanOrEqual(policy.nitrateLimitMgL + 1e-6);
        expect(plan.changesToLimit).toBe(1);
      }),
      { numRuns: 500 },
    );
  });
});

describe('the day a change falls due', () => {
  it('is the interval after the last one', () => {
    expect(changeDueOn(day('2028-02-25'), day('2027-01-01'), 3, 7)).toBe('2028-03-03');
  });

  it('is spread over the first interval where none was logged', () => {
    const days = Array.from({ length: 9 }, (_, place) => changeDueOn(null, due, place, 7));
    expect(days.slice(0, 7)).toEqual([
      '2027-04-13',
      '2027-04-14',
      '2027-04-15',
      '2027-04-16',
      '2027-04-17',
      '2027-04-18',
      '2027-04-19',
    ]);
    expect(days.slice(7)).toEqual(['2027-04-13', '2027-04-14']);
  });
});
