// Words for a day in a plan, looking forward from Wednesday 3 March 2027.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, day, daysBetween } from '../../src/domain/index.ts';
import { parseDayWords } from '../../src/words/index.ts';

fc.configureGlobal({ seed: 20270303 });

const today = day('2027-03-03');
const read = (text: string, from = today): string | undefined => {
  const found = parseDayWords(text, { today: from, zone: 'Europe/Amsterdam' });
  return found.ok ? found.value : undefined;
};

describe('words for a day', () => {
  it.each([
    ['today', '2027-03-03'],
    ['tomorrow', '2027-03-04'],
    ['Wed', '2027-03-03'],
    ['Mon', '2027-03-08'],
    ['on tues', '2027-03-09'],
    ['next Tue', '2027-03-09'],
    ['mon next week', '2027-03-08'],
    ['in a week', '2027-03-10'],
    ['in 3 days', '2027-03-06'],
    ['the day after tomorrow', '2027-03-05'],
    ['1 Dec', '2027-12-01'],
    ['1 mar', '2028-03-01'],
    ['3 March', '2027-03-03'],
    ['12-01', '2027-12-01'],
    ['Fri 5 Mar', '2027-03-05'],
    ['29 feb', '2028-02-29'],
    ['25/12', '2027-12-25'],
    ['12/25', '2027-12-25'],
    ['5 Apr 2027', '2027-04-05'],
    ['2027-03-01', '2027-03-01'],
    ['2026/1/5', '2026-01-05'],
    ['yesterday', '2027-03-02'],
    ['2027-03-04T23:30Z', '2027-03-05'],
  ])('%s', (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  it.each(['', 'foo', 'tomorrow 9am', '9am', 'mon or tue', 'Thu 5 Mar', '4/3', 'march'])('refuses "%s"', (text) => {
    expect(parseDayWords(text, { today, zone: 'UTC' })).toMatchObject({
      ok: false,
      fault: { kind: 'bad-words', what: 'day', typed: text },
    });
  });

  it('finds the next leap day over a century without one', () => {
    expect(read('29 feb', day('2096-03-01'))).toBe('2104-02-29');
  });

  it('finds weekdays within the week and days of the year within a year, never behind', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 20_000 }), fc.constantFrom('mon', 'sat', '1 dec', '31 jan'), (n, text) => {
        const from = addDays(day('2000-01-01'), n);
        const found = read(text, from);
        const ahead = found === undefined ? -1 : daysBetween(from, day(found));
        return ahead >= 0 && ahead < (text.length > 3 ? 366 : 7);
      }),
    );
  });
});
