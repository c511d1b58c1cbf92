import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oxygenSaturationMgL, pressureAtAltitudeKPa, standardPressureKPa } from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

const kPaPer: Readonly<Record<string, number>> = { atm: standardPressureKPa, mmHg: standardPressureKPa / 760 };

// EN 25814 / ISO 5814; Montgomery, Thom & Cockburn 1964. The sources stand in the files.
const standard = publishedTable('oxygenEn25814.csv');
const montgomery = publishedTable('oxygenMontgomery1964.csv');
const altitudes = publishedTable('oxygenAltitude.csv');
const elsewhere = publishedTable('oxygenPressure.csv');

const rowsOf = (table: typeof standard, first: string, second: string) =>
  table.rows.map((row) => [numberIn(row, first), numberIn(row, second)] as const);

describe('the oxygen that water holds', () => {
  it('is checked against whole tables', () => {
    expect(rowsOf(standard, 'tempC', 'mgL')).toHaveLength(31);
    expect(rowsOf(montgomery, 'tempC', 'mgL')).toHaveLength(36);
    expect(montgomery.rows.filter(({ remark }) => remark === 'misprint')).toEqual([
      { tempC: '18', mgL: '9.64', remark: 'misprint' },
    ]);
    expect(altitudes.rows).toHaveLength(11);
    expect(elsewhere.rows).toHaveLength(6);
  });

  it.each(rowsOf(standard, 'tempC', 'mgL'))('is at %d °C the %d mg/L of EN 25814', (tempC, mgL) => {
    const found = oxygenSaturationMgL(tempC, standardPressureKPa);
    // Half the last printed digit, and the two cells that stand a tenth too high: at 7 °C the formula gives 12.139.
    expect(Math.abs(found - mgL)).toBeLessThanOrEqual(tempC <= 15 ? 0.061 : 0.006);
  });

  const printed = montgomery.rows.filter(({ remark }) => remark !== 'misprint');
  it.each(printed.map((row) => [numberIn(row, 'tempC'), numberIn(row, 'mgL')] as const))(
    'is at %d °C the %d mg/L of Montgomery et al. 1964',
    (tempC, mgL) => {
      expect(Math.abs(oxygenSaturationMgL(tempC, standardPressureKPa) - mgL)).toBeLessThanOrEqual(0.031);
    },
  );

  it('is not what is misprinted for 18 °C', () => {
    expect(oxygenSaturationMgL(18, standardPressureKPa)).toBeCloseTo(9.467, 3);
  });

  it.each(
    elsewhere.rows.map((row) => [numberIn(row, 'tempC'), numberIn(row, 'pressure'), row['unit'] ?? '', row] as const),
  )('at %d °C and %d %s is as calculated elsewhere', (tempC, pressure, unit, row) => {
    const kPa = pressure * (kPaPer[unit] ?? Number.NaN);
    expect(Math.abs(oxygenSaturationMgL(tempC, kPa) - numberIn(row, 'mgL'))).toBeLessThanOrEqual(0.0006);
  });

  it('falls as water warms and rises with the pressure', () => {
    const tempC = fc.double({ min: 0, max: 39, noNaN: true });
    const kPa = fc.double({ min: 50, max: 108, noNaN: true });
    fc.assert(
      fc.property(tempC, kPa, (atC, atKPa) => {
        const found = oxygenSaturationMgL(atC, atKPa);
        expect(oxygenSaturationMgL(atC + 0.1, atKPa)).toBeLessThan(found);
        expect(oxygenSaturationMgL(atC, atKPa + 0.1)).toBeGreaterThan(found);
        expect(found).toBeGreaterThan(2);
        expect(found).toBeLessThan(16);
      }),
    );
  });
});

describe('the pressure of the air', () => {
  it.each(rowsOf(altitudes, 'altitudeM', 'mmHg'))('at %d m is %d mmHg within one', (altitudeM, mmHg) => {
    const found = (pressureAtAltitudeKPa(altitudeM) * 760) / standardPressureKPa;
    expect(Math.abs(found - mmHg)).toBeLessThanOrEqual(1);
  });

  it('falls with height', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1000, noNaN: true }), (altitudeM) => {
        expect(pressureAtAltitudeKPa(altitudeM + 1)).toBeLessThan(pressureAtAltitudeKPa(altitudeM));
      }),
    );
  });
});
