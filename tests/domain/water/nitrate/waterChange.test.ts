import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { afterChange, plateauMgL, swappedTogether } from '../../../../src/domain/index.ts';

const rowsOf = (file: string): string[][] =>
  readFileSync(new URL(`../../../published/${file}`, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .slice(1)
    .map((line) => line.split(','));

const dilutions = rowsOf('waterChangeDilution.csv').map((row) => row.map(Number) as [number, number, number]);
const plateaus = rowsOf('waterChangePlateau.csv').map(
  ([kind, ...figures]) => [kind, ...figures.map(Number)] as [string, number, number, number, number, number, number],
);

describe('the recursion of water changes', () => {
  it('reads every row of the tables', () => {
    expect(dilutions).toHaveLength(8);
    expect(plateaus).toHaveLength(12);
  });

  // Source: tests/published/waterChangeDilution.csv (elementary algebra).
  it.each(dilutions)('of %d, %d times, leaves %d of the old water', (fraction, changes, left) => {
    const fractions = Array.from({ length: changes }, () => fraction);
    expect((1 - swappedTogether(fractions)).toFixed(4)).toBe(left.toFixed(4));
    expect(fractions.reduce((level) => afterChange(level, fraction, 0), 1).toFixed(4)).toBe(left.toFixed(4));
  });

  // Source: tests/published/waterChangePlateau.csv (elementary algebra; two rows in a public derivation).
  it.each(plateaus)('%s: a rise of %d at %d over %d settles at %d before and %d after', (...row) => {
    const [, rise, fraction, source, before, after, decimals] = row;
    let level = 77;
    for (let week = 0; week < 400; week++) level = afterChange(level + rise, fraction, source);
    const shown = (value: number): string => Math.abs(value).toFixed(decimals);
    expect(shown(level)).toBe(shown(after));
    expect(shown(level + rise)).toBe(shown(before));
    expect(shown(plateauMgL(source, rise / 7, 7, fraction))).toBe(shown(before));
  });
});
