import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { folded, nearest, slipsBetween } from '../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

describe('slips between two words', () => {
  it.each<[string, string, number]>([
    ['orange', 'orange', 0],
    ['ornage', 'orange', 1],
    ['orang', 'orange', 1],
    ['orrange', 'orange', 1],
    ['arange', 'orange', 1],
    ['', 'abc', 3],
    ['kitten', 'sitting', 3],
  ])('%s and %s: %d', (a, b, slips) => {
    expect(slipsBetween(a, b)).toBe(slips);
  });

  it('are the same both ways and none only between equals', () => {
    const word = fc.string({ maxLength: 8 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(slipsBetween(a, b)).toBe(slipsBetween(b, a));
        expect(slipsBetween(a, b) === 0).toBe(a === b);
      }),
    );
  });
});

describe('the names that are near', () => {
  it('are those one slip away, best first', () => {
    expect(nearest('A9', ['A1', 'A2', 'B7', 'A3', 'A4'])).toEqual(['A1', 'A2', 'A3']);
    expect(nearest('ornage', ['green', 'orange', 'snow'])).toEqual(['orange']);
  });
  it('are those that begin so, before those with a slip', () => {
    expect(nearest('oran', ['grant', 'orange'])).toEqual(['orange']);
  });
  it('are none for what is like nothing', () => {
    expect(nearest('zebra', ['A1', 'orange', 'snow'])).toEqual([]);
  });
  it('takes no notice of case and blanks', () => {
    expect(folded(' Deep  Blue ')).toBe('deepblue');
    expect(nearest('DEEP BLU', ['deep blue'])).toEqual(['deep blue']);
  });
  it('are the first ones when nothing is typed yet', () => {
    expect(nearest(' ', ['A1', 'A2', 'A3', 'A4'])).toEqual(['A1', 'A2', 'A3']);
  });
});
