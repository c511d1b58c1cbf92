import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type BagQuestion,
  bagKinds,
  filledBag,
  mildFigures,
  planBags,
  safeHoursOf,
  strictFigures,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

// Doubles are summed in another order for another bag.
const slack = 1e-6;

const tempC = fc.double({ min: -10, max: 40, noNaN: true });
const kind = fc.constantFrom(...bagKinds);
const bags = fc.record({
  kind,
  animals: fc.integer({ min: 1, max: 40 }),
  waterL: fc.double({ min: 0.1, max: 2, noNaN: true }),
});
const travels = fc.record({
  lengthMm: fc.double({ min: 5, max: 40, noNaN: true }),
  ph: fc.double({ min: 5, max: 9.5, noNaN: true }),
  way: fc.record({ startC: fc.double({ min: 5, max: 30, noNaN: true }), warmC: tempC, coldC: tempC }),
});
const figures = fc.constantFrom(strictFigures, mildFigures);
const more = fc.double({ min: 0.01, max: 20, noNaN: true });

describe('the safe hours of a bag never grow', () => {
  it('on a hotter way, from a warmer tub, with longer or more animals, a higher pH, or less water', () => {
    fc.assert(
      fc.property(bags, travels, figures, more, (bag, travel, by, step) => {
        const { startC, warmC } = travel.way;
        const hours = (asked = travel, filled = bag): number =>
          safeHoursOf(filledBag(filled.kind, filled.animals, filled.waterL), asked, by).hours;
        const most = hours() + slack;
        expect(hours({ ...travel, way: { ...travel.way, warmC: warmC + step } }), 'hotter').toBeLessThanOrEqual(most);
        const warmer = Math.min(30, startC + step);
        expect(hours({ ...travel, way: { ...travel.way, startC: warmer } }), 'warmer').toBeLessThanOrEqual(most);
        expect(hours({ ...travel, lengthMm: travel.lengthMm + step }), 'longer').toBeLessThanOrEqual(most);
        expect(hours({ ...travel, ph: travel.ph + step / 20 }), 'pH').toBeLessThanOrEqual(most);
        expect(hours(travel, { ...bag, animals: bag.animals + Math.ceil(step) }), 'more').toBeLessThanOrEqual(most);
        expect(hours(travel, { ...bag, waterL: bag.waterL / (1 + step) }), 'less water').toBeLessThanOrEqual(most);
      }),
      { numRuns: 200 },
    );
  });

  it('by the strictest figures are no more than by the mildest', () => {
    fc.assert(
      fc.property(bags, travels, ({ kind: of, animals, waterL }, travel) => {
        const bag = filledBag(of, animals, waterL);
        const strict = safeHoursOf(bag, travel, strictFigures).hours;
        expect(strict).toBeLessThanOrEqual(safeHoursOf(bag, travel, mildFigures).hours + slack);
      }),
      { numRuns: 200 },
    );
  });
});

describe('a plan', () => {
  const questions = fc.record({
    kind,
    animals: fc.integer({ min: 1, max: 60 }),
    lengthMm: fc.double({ min: 8, max: 30, noNaN: true }),
    hours: fc.integer({ min: 1, max: 160 }),
    ph: fc.double({ min: 6, max: 8.6, noNaN: true }),
    khDkh: fc.option(fc.double({ min: 0.5, max: 20, noNaN: true })),
    way: fc.record({
      startC: fc.double({ min: 12, max: 28, noNaN: true }),
      warmC: fc.double({ min: 0, max: 36, noNaN: true }),
      coldC: tempC,
    }),
  });
  const harder: Readonly<Record<string, (question: BagQuestion, step: number) => BagQuestion>> = {
    hotter: (question, step) => ({ ...question, way: { ...question.way, warmC: question.way.warmC + step } }),
    'of longer animals': (question, step) => ({ ...question, lengthMm: question.lengthMm + step }),
    'of more animals': (question, step) => ({ ...question, animals: question.animals + Math.ceil(step) }),
    'in harder water': (question, step) => ({ ...question, ph: question.ph + step / 20 }),
  };

  it.each(Object.keys(harder))('%s is promised no more hours, for no less water', (how) => {
    fc.assert(
      fc.property(questions, more, (question, step) => {
        const plan = planBags(question);
        const hard = planBags(harder[how]?.(question, step) ?? question);
        expect(hard.safeHours).toBeLessThanOrEqual(plan.safeHours + slack);
        if (hard.lasts) {
          expect(plan.lasts).toBe(true);
          // One animal more may share itself better among the bags, by a step of filling.
          const less = hard.question.animals > question.animals ? 0.1 : 0;
          expect(hard.waterL).toBeGreaterThanOrEqual(plan.waterL - less - slack);
        }
        expect(hard.practice.fromHours).toBeLessThanOrEqual(plan.practice.fromHours + slack);
        expect(hard.practice.toHours).toBeLessThanOrEqual(plan.practice.toHours + slack);
      }),
      { numRuns: 50 },
    );
  });

  it('of a longer way takes no less water, and leaves no more hours to spare', () => {
    fc.assert(
      fc.property(questions, fc.integer({ min: 1, max: 40 }), (question, later) => {
        const plan = planBags(question);
        const longer = planBags({ ...question, hours: question.hours + later });
        const spare = (of: typeof plan): number => of.safeHours - of.question.hours;
        expect(spare(longer)).toBeLessThanOrEqual(spare(plan) + slack);
        if (longer.lasts) expect(longer.waterL).toBeGreaterThanOrEqual(plan.waterL - slack);
      }),
      { numRuns: 50 },
    );
  });

  it('lasts what it promises in every bag, with at most 20 animals and a litre in one', () => {
    fc.assert(
      fc.property(questions, (question) => {
        const { fillings, lasts, safeHours, mildWaterL, waterL } = planBags(question);
        expect(lasts).toBe(safeHours >= question.hours);
        expect(fillings.reduce((sum, { bags: number, animals }) => sum + number * animals, 0)).toBe(question.animals);
        for (const filling of fillings) {
          const bag = filledBag(question.kind, filling.animals, filling.waterL);
          expect(safeHoursOf(bag, question).hours).toBeGreaterThanOrEqual(safeHours - slack);
          expect(filling.animals).toBeLessThanOrEqual(20);
          expect(filling.waterL).toBeLessThanOrEqual(1);
        }
        if (lasts) expect(mildWaterL ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(waterL + slack);
      }),
      { numRuns: 50 },
    );
  });
});
