import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ionOf, type NitrogenIon, nitrogenOf, perNitrogen } from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

// Factors from the atomic masses, and the limit of Camargo et al. 2005; the sources stand in the file.
const table = publishedTable('nitrogenIons.csv');
const ions = Object.keys(perNitrogen) as NitrogenIon[];
const ionIn = (name: string | undefined): NitrogenIon => {
  const found = ions.find((ion) => ion === name);
  if (found === undefined) throw new Error(`no ion ${name}`);
  return found;
};

describe('nitrogen and its ions', () => {
  it('is checked for every ion and both ways', () => {
    expect(table.rows).toHaveLength(9);
    for (const kind of ['factor', 'inverse']) {
      expect(table.rows.filter((row) => row['kind'] === kind).map(({ ion }) => ion)).toEqual(ions);
    }
  });

  it.each(table.rows)('converts as in the row $kind of $ion', (row) => {
    const ion = ionIn(row['ion']);
    const nitrogenMgL = numberIn(row, 'nitrogenMgL');
    const ionMgL = numberIn(row, 'ionMgL');
    const decimals = numberIn(row, 'decimals');
    if (row['kind'] === 'inverse')
      expect(nitrogenOf(ion, ionMgL).toFixed(decimals)).toBe(nitrogenMgL.toFixed(decimals));
    else expect(ionOf(ion, nitrogenMgL).toFixed(decimals)).toBe(ionMgL.toFixed(decimals));
  });

  it('comes back to what it was', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ions), fc.double({ min: 0, max: 500, noNaN: true }), (ion, mgL) => {
        expect(nitrogenOf(ion, ionOf(ion, mgL))).toBeCloseTo(mgL, 9);
        expect(nitrogenOf(ion, mgL)).toBeLessThanOrEqual(mgL);
      }),
    );
  });
});
