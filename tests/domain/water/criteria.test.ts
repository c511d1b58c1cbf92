import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { acuteCriterionMgNL, chronicCriterionMgNL, compareAmmonia } from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

// US EPA 1999; what was read and what is from memory stands in the file.
const table = publishedTable('ammoniaCriterionEpa1999.csv');
const cells = table.rows.map(
  (row) =>
    [
      row['criterion'] ?? '',
      numberIn(row, 'ph'),
      numberIn(row, 'tempC'),
      numberIn(row, 'mgNL'),
      row['provenance'] ?? '',
    ] as const,
);

describe('the published criteria for ammonia', () => {
  it('are checked over the whole range of pH and temperature', () => {
    expect(cells).toHaveLength(51);
    const chronic = cells.filter(([criterion]) => criterion === 'chronic');
    expect(chronic).toHaveLength(48);
    expect(Math.min(...chronic.map(([, ph]) => ph))).toBe(6.5);
    expect(Math.max(...chronic.map(([, ph]) => ph))).toBe(9);
    expect(new Set(cells.map(([, , , , provenance]) => provenance))).toEqual(new Set(['memory', 'calculated']));
  });

  it.each(cells)('%s at pH %d and %d °C is %d mg N/L', (criterion, ph, tempC, mgNL) => {
    const found = criterion === 'chronic' ? chronicCriterionMgNL(ph, tempC) : acuteCriterionMgNL(ph);
    expect(Number(found.toPrecision(3))).toBe(mgNL);
  });

  it('never rise with pH or temperature, and the acute one is the higher', () => {
    const ph = fc.double({ min: 6.5, max: 9, noNaN: true });
    const tempC = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(ph, tempC, (atPh, atC) => {
        const chronic = chronicCriterionMgNL(atPh, atC);
        expect(chronic).toBeGreaterThan(0);
        expect(chronicCriterionMgNL(atPh + 0.01, atC)).toBeLessThan(chronic);
        expect(chronicCriterionMgNL(atPh, atC + 1)).toBeLessThanOrEqual(chronic);
        expect(acuteCriterionMgNL(atPh)).toBeGreaterThan(chronic);
      }),
    );
  });

  it('stand beside a reading of the ion', () => {
    // 2 mg/L NH4 hold 1.553 mg/L nitrogen; EPA 1999 at pH 8 and 20 °C: 1.71 chronic, 8.41 acute.
    const beside = compareAmmonia(2, 8, 20);
    expect(beside.nitrogenMgL).toBeCloseTo(1.553, 3);
    expect(beside.timesChronic).toBeCloseTo(0.909, 2);
    expect(beside.over).toBe('neither');
    expect(compareAmmonia(2.5, 8, 20).over).toBe('chronic');
    expect(compareAmmonia(11, 8, 20).over).toBe('acute');
    expect(compareAmmonia(0, 8, 20)).toMatchObject({ nitrogenMgL: 0, timesChronic: 0, over: 'neither' });
  });
});
