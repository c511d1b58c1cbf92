import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../../../src/domain/colony/temperature/dayNumber.ts';
import { addDays, day, daysBetween } from '../../../src/domain/index.ts';

describe('the number of a day', () => {
  it.each([
    ['2000-07-25', 0],
    ['2000-07-26', 1],
    ['2001-07-25', 365],
    ['2000-02-29', -147],
    ['1900-03-01', -36_671],
  ])('of %s is %s', (date, number) => expect(dayNumber(day(date))).toBe(number));

  it('counts as the calendar does', () => {
    const begin = day('1890-01-01');
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 110_000 }), (ahead) => {
        const date = addDays(begin, ahead);
        expect(dayNumber(date) - dayNumber(begin)).toBe(daysBetween(begin, date));
      }),
      { numRuns: 2000, seed: 20270413 },
    );
  });
});
