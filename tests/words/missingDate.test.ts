import { describe, expect, it } from 'vitest';
import type { Instant, LocalDay } from '../../src/domain/index.ts';
import { parseDayWords, parseMonthDayWords, parseWhen } from '../../src/words/index.ts';

const zone = 'Europe/Amsterdam';
const seen = { today: '2027-02-15' as LocalDay, zone };
const now = '2027-02-15T07:00:00.000Z' as Instant;

describe('a date that no calendar has', () => {
  it.each([
    ['31 feb', '31 feb'],
    ['Feb 30th', 'feb 30th'],
    ['2027-02-29', '2027-02-29'],
    ['29 February 2027', '29 february 2027'],
    ['31st of April', '31st of april'],
    ['2027-13-01', '2027-13-01'],
  ])('%s is told by name, as a day and as a moment', (typed, named) => {
    const fault = { kind: 'no-such-date', typed: named };
    expect(parseDayWords(typed, seen)).toEqual({ ok: false, fault });
    expect(parseWhen(`${typed} 18:00`, { now, zone })).toEqual({ ok: false, fault });
  });

  it('is told as a day of the year', () => {
    expect(parseMonthDayWords('31 Jun')).toEqual({ ok: false, fault: { kind: 'no-such-date', typed: '31 jun' } });
  });

  it.each(['blah', '31', 'march 2027', '1 mar 25:00', '18:00 30'])('is not seen in %s', (typed) => {
    expect(parseWhen(typed, { now, zone })).toMatchObject({ fault: { kind: 'bad-words' } });
  });
});
