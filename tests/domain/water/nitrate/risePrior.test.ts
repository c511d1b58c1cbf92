import { describe, expect, it } from 'vitest';
import { type Estimate, risePriorOf, widePrior } from '../../../../src/domain/index.ts';

/** A tub's rise whose 80 % interval is a factor either way. */
const rise = (median: number, factor = 1.3): Estimate => ({ low: median / factor, median, high: median * factor });

describe('the prior from the other tubs', () => {
  it('is the wide one without any, and with tubs that know no more than it', () => {
    expect(risePriorOf([])).toEqual(widePrior);
    // exp(1.2816 × 0.8) = 2.79 is the wide prior's own factor.
    expect(risePriorOf([rise(0.3, 2.79), rise(2, 2.9)]).medianPerDay).toBeCloseTo(0.3, 2);
  });

  it('moves with the number of tubs, and narrows', () => {
    const few = risePriorOf([rise(0.9), rise(0.9)]);
    const many = risePriorOf(Array.from({ length: 20 }, () => rise(0.9)));
    expect(few.medianPerDay).toBeGreaterThan(0.35);
    expect(few.medianPerDay).toBeLessThan(0.55);
    expect(many.medianPerDay).toBeGreaterThan(0.7);
    expect(many.logSd).toBeLessThan(few.logSd);
    expect(many.logSd).toBeGreaterThanOrEqual(0.35);
  });

  it('is not led by one odd tub', () => {
    const rack = [0.25, 0.28, 0.3, 0.3, 0.33, 0.35, 0.36, 0.4].map((median) => rise(median));
    const plain = risePriorOf(rack);
    const odd = risePriorOf([...rack, rise(6)]);
    expect(odd.medianPerDay / plain.medianPerDay).toBeLessThan(1.1);
    expect(odd.logSd / plain.logSd).toBeLessThan(1.15);
  });

  it('takes a rise at or below zero for a very slow one', () => {
    const prior = risePriorOf([
      { low: -0.4, median: -0.1, high: 0.01 },
      { low: -0.1, median: 0, high: 0.03 },
    ]);
    expect(prior.medianPerDay).toBeGreaterThan(0);
    expect(prior.medianPerDay).toBeLessThan(0.3);
  });

  it('spreads with the rack', () => {
    const alike = risePriorOf(Array.from({ length: 10 }, () => rise(0.3)));
    const unlike = risePriorOf([0.05, 0.08, 0.1, 0.2, 0.3, 0.3, 0.5, 0.9, 1.4, 2].map((median) => rise(median)));
    expect(unlike.logSd).toBeGreaterThan(1.3 * alike.logSd);
  });
});
