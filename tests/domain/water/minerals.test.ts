import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  caCO3PerDgh,
  ecAt25,
  ecOfTds,
  fromDgh,
  type HardnessUnit,
  tdsOfEc,
  toDgh,
  usualEcGain,
  usualTdsFactor,
} from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

const units: readonly HardnessUnit[] = ['dGH', 'mg/L CaCO3', 'mmol/L', '°fH', '°eH'];
const unitIn = (name: string | undefined): HardnessUnit => {
  const found = units.find((unit) => unit === name);
  if (found === undefined) throw new Error(`no unit ${name}`);
  return found;
};

// A printed conversion table, FAO and a worked example; the sources stand in the file.
const table = publishedTable('hardness.csv');

describe('units of hardness', () => {
  it('are checked for every unit', () => {
    expect(table.rows).toHaveLength(15);
    expect(new Set(table.rows.flatMap(({ unit, otherUnit }) => [unit, otherUnit]))).toEqual(new Set(units));
  });

  it.each(table.rows)('$row: $value $unit is $other $otherUnit', (row) => {
    const found = fromDgh(toDgh(numberIn(row, 'value'), unitIn(row['unit'])), unitIn(row['otherUnit']));
    expect(Math.abs(found - numberIn(row, 'other'))).toBeLessThanOrEqual(numberIn(row, 'tolerance'));
  });

  it('come back to what they were', () => {
    fc.assert(
      fc.property(fc.constantFrom(...units), fc.double({ min: 0, max: 900, noNaN: true }), (unit, value) => {
        expect(fromDgh(toDgh(value, unit), unit)).toBeCloseTo(value, 9);
      }),
    );
    expect(fromDgh(1, 'mg/L CaCO3')).toBe(caCO3PerDgh);
  });
});

describe('conductivity', () => {
  it('of 300 µS/cm is 192 mg/L by the usual factor', () => {
    // Worked example of general pages: 300 × 0.64.
    expect(tdsOfEc(300, usualTdsFactor)).toBeCloseTo(192, 9);
    expect(ecOfTds(192, usualTdsFactor)).toBeCloseTo(300, 9);
  });

  it('is brought to 25 °C by 2 % a degree', () => {
    // EC25 = EC / (1 + 0.02 (t − 25)), by hand.
    expect(ecAt25(90, 20, usualEcGain)).toBeCloseTo(100, 9);
    expect(ecAt25(110, 30, usualEcGain)).toBeCloseTo(100, 9);
    expect(ecAt25(321, 25, usualEcGain)).toBe(321);
  });

  it('of colder water counts for more, and its solids rise with it', () => {
    const ec = fc.double({ min: 1, max: 3000, noNaN: true });
    fc.assert(
      fc.property(ec, fc.double({ min: 0, max: 39, noNaN: true }), (microS, tempC) => {
        expect(ecAt25(microS, tempC, usualEcGain)).toBeGreaterThan(ecAt25(microS, tempC + 1, usualEcGain));
        expect(tdsOfEc(microS + 1, 0.5)).toBeGreaterThan(tdsOfEc(microS, 0.5));
      }),
    );
  });
});
