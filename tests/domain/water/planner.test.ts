import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { day, defaultBusiness, estimateFrom, firstDueOn, inferNitrate } from '../../../src/domain/index.ts';
import { knownNitrate, planned, unknownNitrate } from '../../support/water.ts';

fc.configureGlobal({ seed: 20270413 });

const policy = { ...defaultBusiness };

describe('the next change of a tub', () => {
  it('is the least of the policy, on its first day, where nothing was read', () => {
    expect(planned({ firstDueOn: day('2027-04-16') })).toMatchObject({
      litres: 2,
      percent: 10,
      reason: 'no-reading',
      dueOn: '2027-04-16',
      nitrate: null,
      wholeLitres: null,
    });
  });

  it('is what the nitrate asks for, an interval after the last one', () => {
    const plan = planned({ estimate: knownNitrate(20, 0.3), lastChangedOn: day('2027-04-10') });
    expect(plan).toMatchObject({ dueOn: '2027-04-17', everyDays: 7, reason: 'limit' });
    expect(plan.nitrate).toMatchObject({ limitMgL: 20, sourceMgL: 5, readings: 9, changes: 1 });
    // 20 + 4 days of 0.3 before it; so many litres after it.
    expect(plan.nitrate?.afterMgL.median).toBeCloseTo(21.2 - (plan.litres / 20) * (21.2 - 5), 9);
  });

  it('does not wait for the interval where one change is too small: three days apart until it does', () => {
    const over = planned({ estimate: knownNitrate(60, 0.3), lastChangedOn: day('2027-04-12') });
    expect(over).toMatchObject({ reason: 'steps', dueOn: '2027-04-15', everyDays: 3, litres: 5 });
    expect(over.nitrate?.changes).toBeGreaterThan(3);
  });

  it('of a tub over the limit that was never changed is due the day it was read', () => {
    const more = { firstDueOn: day('2027-04-18'), readOn: day('2027-04-12') };
    expect(planned({ estimate: knownNitrate(40, 0.3), ...more }).dueOn).toBe('2027-04-12');
    expect(planned({ estimate: knownNitrate(15, 0.3), ...more }).dueOn).toBe('2027-04-18');
  });

  it('is at once and the most of the policy where ammonia or nitrite harms, and never over a quarter', () => {
    const harmOn = day('2027-04-12');
    expect(planned({ harmOn })).toMatchObject({ litres: 5, reason: 'urgent', dueOn: '2027-04-12', nitrate: null });
    expect(planned({ harmOn, estimate: knownNitrate(8, 0), lastChangedOn: day('2027-04-11') })).toMatchObject({
      litres: 5,
      dueOn: '2027-04-12',
    });
    expect(planned({ harmOn, policy: { ...policy, changeMaxPercent: 60 } }).litres).toBe(5);
    expect(planned({ harmOn, policy: { ...policy, changeMinPercent: 40, changeMaxPercent: 60 } }).litres).toBe(5);
    expect(planned({ harmOn, policy: { ...policy, changeMaxPercent: 15 } }).litres).toBe(3);
  });

  it('comes in parts where it would move minerals too far at once', () => {
    // 5 of 20 L from GH 14 to GH 2: 3 °dGH at once, where 2 is the most; in two parts, and twice as often.
    const plan = planned({
      estimate: knownNitrate(30, 0.1),
      lastChangedOn: day('2027-04-06'),
      water: { tempC: 21, tdsMgL: null, ghDgh: 14 },
      source: { tempC: null, tdsMgL: null, ghDgh: 2 },
    });
    expect(plan).toMatchObject({ wholeLitres: 5, litres: 2.5, everyDays: 3 });
    expect(plan.jump.moves[0]).toMatchObject({ of: 'gh', before: 14, after: 12.5 });
    expect(plan.jump.parts).toBe(1);
  });

  it('of first aid is not split, and says how far it moves them', () => {
    const plan = planned({
      harmOn: day('2027-04-13'),
      water: { tempC: null, tdsMgL: 400, ghDgh: null },
      source: { tempC: null, tdsMgL: 40, ghDgh: null },
    });
    expect(plan).toMatchObject({ litres: 5, wholeLitres: null });
    expect(plan.jump.moves[0]).toMatchObject({ of: 'tds', before: 400, after: 310 });
    expect(plan.jump.parts).toBeGreaterThan(1);
  });

  it('lies within the bounds of the policy, or is a part of what does', () => {
    const tub = fc.record({
      netLitres: fc.integer({ min: 10, max: 2000 }).map((tenths) => tenths / 10),
      nowMgL: fc.option(fc.double({ min: 0, max: 300, noNaN: true }), { nil: null }),
      risePerDay: fc.double({ min: -0.2, max: 2, noNaN: true }),
      source: fc.double({ min: 0, max: 60, noNaN: true }),
      limit: fc.integer({ min: 1, max: 100 }),
      bounds: fc.tuple(fc.integer({ min: 1, max: 100 }), fc.integer({ min: 1, max: 100 })),
      gh: fc.double({ min: 0, max: 30, noNaN: true }),
    });
    fc.assert(
      fc.property(tub, ({ netLitres, nowMgL, risePerDay, source, limit, bounds, gh }) => {
        const [least, most] = [Math.min(...bounds), Math.max(...bounds)];
        const plan = planned({
          netLitres,
          estimate: nowMgL === null ? unknownNitrate : knownNitrate(nowMgL, risePerDay),
          policy: {
            ...policy,
            sourceNitrateMgL: source,
            nitrateLimitMgL: limit,
            changeMinPercent: least,
            changeMaxPercent: most,
          },
          water: { tempC: null, tdsMgL: null, ghDgh: gh },
          source: { tempC: null, tdsMgL: null, ghDgh: 6 },
        });
        expect(plan.litres).toBeGreaterThan(0);
        expect(plan.litres).toBeLessThanOrEqual((netLitres * most) / 100 + 1e-6);
        const whole = plan.wholeLitres ?? plan.litres;
        expect(whole).toBeGreaterThanOrEqual((netLitres * least) / 100 - 1e-6);
        if (plan.wholeLitres !== null) expect(plan.litres).toBeLessThan(plan.wholeLitres);
      }),
      { numRuns: 500 },
    );
  });

  it('is the same for beliefs of one truth and for an inference that has long been sure of it', () => {
    const kit = [0, 5, 10, 20, 40, 80, 160];
    const weekly = Array.from({ length: 17 }, (_, week) => [
      { of: 'reading', day: week * 7, nitrateMgL: 10 } as const,
      { of: 'change', day: week * 7, fraction: 0.1 } as const,
    ]).flat();
    const estimate = inferNitrate(weekly, 112, 5, kit);
    const sure = estimateFrom(
      [{ nowMgL: estimate.nowMgL.median, risePerDay: estimate.risePerDay.median, weight: 1 }],
      17,
    );
    const lastChangedOn = day('2027-04-06');
    expect(planned({ estimate, lastChangedOn }).dueOn).toBe(planned({ estimate: sure, lastChangedOn }).dueOn);
    expect(planned({ estimate, lastChangedOn }).litres).toBeGreaterThanOrEqual(
      planned({ estimate: sure, lastChangedOn }).litres,
    );
  });
});

it('a tub never changed falls due spread over its first interval', () => {
  const days = Array.from({ length: 9 }, (_, place) => firstDueOn(day('2027-04-13'), place, 7));
  expect(days.slice(0, 7)).toEqual(['13', '14', '15', '16', '17', '18', '19'].map((date) => `2027-04-${date}`));
  expect(days.slice(7)).toEqual(['2027-04-13', '2027-04-14']);
});
