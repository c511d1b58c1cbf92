import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carleStrub } from '../../../../src/domain/colony/counting/carleStrub.ts';
import { catchSums } from '../../../../src/domain/colony/counting/catchSums.ts';
import { removalQuantiles, weightGrowth } from '../../../../src/domain/colony/counting/removalBelief.ts';
import { seberLeCren } from '../../../../src/domain/colony/counting/seberLeCren.ts';
import { nextPass, type PassesEstimate, passesEstimate, passesLogLikelihood } from '../../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const catches = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 2, maxLength: 5 });

function estimate(...caught: number[]): PassesEstimate {
  const found = passesEstimate(caught);
  if (!found.ok) throw new Error(found.fault.kind);
  return found.value;
}

describe('an estimate by removal passes', () => {
  it('is Seber and Le Cren of two passes, Carle and Strub of more', () => {
    expect(estimate(79, 28)).toMatchObject(seberLeCren(79, 28));
    expect(estimate(38, 26, 12)).toMatchObject(carleStrub([38, 26, 12]));
    expect(estimate(12, 6, 3, 2)).toMatchObject({ ...carleStrub([12, 6, 3, 2]), passes: 4, caught: 23 });
  });

  it('has a range that is never below the catch and holds the number', () => {
    fc.assert(
      fc.property(catches, (caught) => {
        const found = passesEstimate(caught);
        if (!found.ok) return;
        const { number, standardError, capture, low, median, high, sd } = found.value;
        const out = caught.reduce((sum, each) => sum + each, 0);
        expect(found.value.caught).toBe(out);
        expect(number).toBeGreaterThanOrEqual(out);
        expect(low).toBeGreaterThanOrEqual(out);
        expect(low).toBeLessThanOrEqual(Math.round(number));
        expect(Math.round(number)).toBeLessThanOrEqual(high);
        expect(low).toBeLessThanOrEqual(median);
        expect(median).toBeLessThanOrEqual(high);
        expect(high).toBeLessThanOrEqual(4 * out);
        expect(capture).toBeGreaterThan(0);
        expect(capture).toBeLessThanOrEqual(1);
        expect(standardError).toBeGreaterThanOrEqual(0);
        expect(sd).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 3000 },
    );
  });

  it('doubts that an empty second pass leaves nothing behind, which the published error does not', () => {
    expect(estimate(5, 0)).toMatchObject({ number: 5, standardError: 0, low: 5, high: 8 });
    expect(estimate(40, 0)).toMatchObject({ low: 40, high: 40 });
  });

  it('narrows as an empty pass follows', () => {
    const [two, three] = [estimate(20, 8), estimate(20, 8, 0)];
    expect(three.high - three.low).toBeLessThan((two.high - two.low) / 4);
  });

  it('says where the passes do not fall evenly', () => {
    expect(estimate(38, 26, 12).even).toBe(true);
    expect(estimate(40, 5, 25).even).toBe(false);
    expect(estimate(79, 28).even).toBe(true);
    expect(estimate(10, 0, 0).even).toBe(true);
    expect(estimate(40, 0, 1).even).toBe(true);
    expect(estimate(60, 0, 4).even).toBe(false);
  });

  it('is quick even of thousands', () => {
    expect(estimate(5000, 2000, 900, 300)).toMatchObject({ caught: 8200 });
    expect(passesEstimate([5000, 4990])).toMatchObject({ ok: false, fault: { kind: 'weak-decline' } });
  });
});

describe('catches that tell no number', () => {
  it.each([
    [[0, 0], 'nothing-caught', 0],
    [[0, 0, 0, 0], 'nothing-caught', 0],
    [[0, 9], 'all-in-the-last', 9],
    [[0, 0, 9], 'all-in-the-last', 9],
    [[72, 72], 'no-decline', 144],
    [[20, 24], 'no-decline', 44],
    [[5, 7, 8], 'no-decline', 20],
    [[8, 3, 8], 'no-decline', 19],
    [[5, 9, 4, 7], 'no-decline', 25],
    [[0, 9, 9, 0], 'no-decline', 18],
    [[72, 56], 'weak-decline', 128],
    [[2, 1], 'weak-decline', 3],
    [[8, 6, 5], 'weak-decline', 19],
  ] as const)('%j: %s', (caught, kind, out) => {
    expect(passesEstimate(caught)).toMatchObject({ ok: false, fault: { kind, caught: out } });
  });

  it('say how far a weak decline leaves it open', () => {
    const found = passesEstimate([72, 56]);
    expect(found).toMatchObject({ fault: { low: 210, high: 999 } });
  });

  it.each([[[5]], [[5, -1]], [[5, 1.5]], [[5, Number.NaN]]])('%j are a bug', (caught) => {
    expect(() => passesEstimate(caught)).toThrow(RangeError);
  });

  it('are refused by the estimators themselves, so that no number comes of a division by nothing', () => {
    expect(() => seberLeCren(28, 28)).toThrow(RangeError);
    expect(() => carleStrub([0, 0, 0])).toThrow(RangeError);
  });
});

describe('what is believed of the number', () => {
  it('follows the likelihood: each animal more by the factor of Carle and Strub', () => {
    fc.assert(
      fc.property(catches, fc.integer({ min: 0, max: 300 }), (caught, more) => {
        const sums = catchSums(caught);
        const number = sums.caught + more;
        const grown = passesLogLikelihood(caught, number + 1) - passesLogLikelihood(caught, number);
        expect(grown).toBeCloseTo(Math.log(weightGrowth(sums, number)), 8);
      }),
    );
  });

  it('has the quantiles of that likelihood with a prior of 1/N, summed one by one', () => {
    for (const caught of [
      [20, 8],
      [8, 5, 3],
      [40, 15, 6],
      [12, 6, 3, 2],
    ]) {
      const sums = catchSums(caught);
      const weights = Array.from(
        { length: 20_000 },
        (_, more) =>
          Math.exp(passesLogLikelihood(caught, sums.caught + more) - passesLogLikelihood(caught, sums.caught)) /
          (sums.caught + more),
      );
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const quantile = (share: number): number => {
        let more = 0;
        for (let below = weights[0] ?? 0; below < share * total; below += weights[more] ?? 0) more += 1;
        return sums.caught + more;
      };
      expect(removalQuantiles(sums, [0.1, 0.5, 0.9])).toEqual([quantile(0.1), quantile(0.5), quantile(0.9)]);
    }
  });

  it('rises with the share asked for, into the far end of a weak decline too', () => {
    const shares = [0.025, 0.1, 0.5, 0.9, 0.975, 0.999];
    for (const caught of [
      [50, 48],
      [2, 1],
      [20, 8],
      [300, 100],
    ]) {
      const quantiles = removalQuantiles(catchSums(caught), shares);
      expect(quantiles).toEqual([...quantiles].sort((a, b) => a - b));
      expect(quantiles.every(Number.isInteger)).toBe(true);
    }
  });

  it('gives no chance to fewer than were caught', () => {
    expect(passesLogLikelihood([20, 8], 27)).toBe(Number.NEGATIVE_INFINITY);
    expect(passesLogLikelihood([20, 8], 28)).toBeGreaterThan(Number.NEGATIVE_INFINITY);
  });
});

describe('one more pass', () => {
  it('is worth it where the range is wide, and says what it would give', () => {
    const caught = [77, 37];
    expect(nextPass(caught, estimate(...caught))).toEqual({ catch: 18, low: 141, high: 163, helps: true });
  });

  it('is not where all are out', () => {
    expect(nextPass([40, 0], estimate(40, 0))).toMatchObject({ catch: 0, helps: false });
    expect(nextPass([150, 30], estimate(150, 30))).toMatchObject({ helps: false });
  });

  it('of any estimate stays in order', () => {
    fc.assert(
      fc.property(catches, (caught) => {
        const found = passesEstimate(caught);
        if (!found.ok) return;
        const next = nextPass(caught, found.value);
        expect(next.catch).toBeGreaterThanOrEqual(0);
        expect(next.low).toBeGreaterThanOrEqual(found.value.caught + next.catch);
        expect(next.high).toBeGreaterThanOrEqual(next.low);
      }),
    );
  });
});
