import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rankUpdate } from '../../../../src/domain/colony/model/rankUpdate.ts';
import { spreadOf } from '../../../../src/domain/colony/model/spread.ts';
import { normalBelow } from '../../../../src/domain/water/nitrate/normal.ts';

/** Standard normal values of even shares, found by halving. */
const standard = Float64Array.from({ length: 128 }, (_, rank) => {
  let [low, high] = [-8, 8];
  for (let halving = 0; halving < 60; halving++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < (rank + 0.5) / 128) low = middle;
    else high = middle;
  }
  return low;
});

const normal = (centre: number, sd: number) => ({
  log: (y: number) => -0.5 * ((y - centre) / sd) ** 2,
  centre,
  sd,
});

describe("Bayes' rule by ranks", () => {
  it.each([
    { mean: 4, sd: 0.4, seen: 4.2, error: 0.05 },
    { mean: 4, sd: 0.4, seen: 3.7, error: 0.3 },
    { mean: 2, sd: 0.2, seen: 2.1, error: 0.5 },
    { mean: 0, sd: 1, seen: 1, error: 1 },
  ])('comes near the exact posterior of two normals: $mean ± $sd, seen $seen ± $error', ({ mean, sd, seen, error }) => {
    const after = spreadOf(
      rankUpdate(
        standard.map((z) => mean + sd * z),
        normal(seen, error),
        0.05,
      ),
    );
    const weight = sd ** 2 / (sd ** 2 + error ** 2);
    const exactSd = sd * Math.sqrt(1 - weight);
    // The wide doubt about the members draws a little further to what was seen, and widens.
    expect(Math.abs(after.mean - (mean + weight * (seen - mean)))).toBeLessThan(0.12 * exactSd + 0.005);
    expect(after.sd / exactSd).toBeGreaterThan(0.93);
    expect(after.sd / exactSd).toBeLessThan(1.1);
  });

  it('believes a sure count that contradicts all members', () => {
    const after = spreadOf(
      rankUpdate(
        standard.map((z) => 4 + 0.1 * z),
        normal(2, 0.05),
        0.05,
      ),
    );
    expect(after.mean).toBeCloseTo(2, 1);
    expect(after.sd).toBeGreaterThan(0.04);
  });

  it('keeps every member at its rank, all apart, whatever is seen', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: -100, max: 700 }), { minLength: 8, maxLength: 60 }),
        fc.double({ min: -1, max: 8, noNaN: true }),
        fc.double({ min: 0.02, max: 1, noNaN: true }),
        (values, seen, error) => {
          const prior = Float64Array.from(values, (hundredths) => hundredths / 100);
          const after = rankUpdate(prior, normal(seen, error), 0.05);
          const order = [...prior.keys()].sort((a, b) => (prior[a] ?? 0) - (prior[b] ?? 0) || a - b);
          const ranked = order.map((member) => after[member] ?? Number.NaN);
          expect(ranked.every((value, rank) => rank === 0 || value > (ranked[rank - 1] ?? 0))).toBe(true);
        },
      ),
      { numRuns: 200 },
    );
  });
});
