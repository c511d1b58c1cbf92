import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unionisedShare } from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

// Trussell 1972; the source stands in the file.
const lines = readFileSync(new URL('../../published/ammonia-trussell-1972.csv', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line !== '' && !line.startsWith('#'));
const [header = '', ...rows] = lines;
const temperaturesC = [10, 15, 20, 25];
const cells = rows.flatMap((row) => {
  const [ph = Number.NaN, ...percents] = row.split(',').map(Number);
  return percents.map((percent, index) => [ph, temperaturesC[index] ?? Number.NaN, percent] as const);
});

// University of Florida IFAS FA16; what was read and what is from memory stands in the file.
const florida = publishedTable('ammoniaIfasFa16.csv');
const floridaC = florida.columns.slice(2).map(Number);
const floridaCells = florida.rows.flatMap((row) =>
  floridaC.map((tempC) => [numberIn(row, 'ph'), tempC, numberIn(row, String(tempC))] as const),
);

describe('the un-ionised share of ammonia', () => {
  it('is checked against the whole published table', () => {
    expect(header).toBe('pH,10C,15C,20C,25C');
    expect(rows).toHaveLength(16);
    expect(cells).toHaveLength(64);
    expect(cells.at(0)).toEqual([7, 10, 0.19]);
    expect(cells.at(-1)).toEqual([8.5, 25, 14.97]);
  });

  it.each(cells)('is that of Trussell 1972 at pH %d and %d °C: %d per cent', (ph, tempC, percent) => {
    const found = unionisedShare(ph, tempC) * 100;
    // Below pH 7.3 the table's two decimals hide up to 2 %: there the last printed digit may be one off.
    const isSmall = ph < 7.3;
    const shown = isSmall ? Number(found.toFixed(2)) : found;
    expect(Math.abs(shown - percent)).toBeLessThanOrEqual((isSmall ? 0.01 : 0.02 * percent) + 1e-12);
  });

  it('is checked against the whole of the second table', () => {
    expect(floridaC).toEqual([8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30]);
    expect(floridaCells).toHaveLength(120);
    expect(florida.rows.map(({ provenance }) => provenance)).toEqual(['read', ...Array(9).fill('memory')]);
  });

  it.each(floridaCells)('is that of IFAS FA16 at pH %d and %d °C: %d', (ph, tempC, share) => {
    expect(Math.abs(unionisedShare(ph, tempC) - share)).toBeLessThanOrEqual(0.0003 + 0.004 * share);
  });

  it('gives the worked example of 24 °C and pH 8.0', () => {
    // University of Florida IFAS Extension FA16, "Ammonia in Aquatic Systems": factor 0.0502.
    expect(unionisedShare(8, 24)).toBeCloseTo(0.0502, 4);
  });

  it('carries 2729.92 and not the misprinted 2727.92', () => {
    // Emerson et al. 1975 by the formula: 5.366 % at 25 °C and pH 8; the misprint would give 5.445 %.
    expect(Math.abs(unionisedShare(8, 25) * 100 - 5.366)).toBeLessThanOrEqual(0.01);
  });

  it('grows with pH and with temperature and stays a share', () => {
    const ph = fc.double({ min: 4, max: 11, noNaN: true });
    const tempC = fc.double({ min: 0, max: 50, noNaN: true });
    fc.assert(
      fc.property(ph, tempC, (atPh, atC) => {
        const share = unionisedShare(atPh, atC);
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
        expect(unionisedShare(atPh + 0.1, atC)).toBeGreaterThan(share);
        expect(unionisedShare(atPh, atC + 1)).toBeGreaterThan(share);
      }),
    );
  });

  it('makes no number out of none', () => {
    expect(unionisedShare(Number.NaN, 20)).toBeNaN();
    expect(unionisedShare(7, Number.NaN)).toBeNaN();
  });
});
