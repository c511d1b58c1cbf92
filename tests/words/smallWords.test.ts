// Days of the year, times, weekdays, kit steps, ranges of names, near names.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bestGuess,
  maxNamesAtOnce,
  nearNames,
  parseKitSteps,
  parseMonthDayWords,
  parseRange,
  parseTimeWords,
  parseWeekdays,
} from '../../src/words/index.ts';

fc.configureGlobal({ seed: 20270303 });

const valueIn = <T>(found: { readonly ok: true; readonly value: T } | { readonly ok: false }): T | 'refused' =>
  found.ok ? found.value : 'refused';

describe('days of the year', () => {
  it.each([
    ['12-01', '12-01'],
    ['1 Dec', '12-01'],
    ['1st of December', '12-01'],
    ['December 1', '12-01'],
    ['29 Feb', '02-29'],
    ['sept 3rd', '09-03'],
    ['1Dec', '12-01'],
    ['30 Feb', 'refused'],
    ['13-01', 'refused'],
    ['1 Dec 2027', 'refused'],
    ['Dec', 'refused'],
    ['tomorrow', 'refused'],
  ])('%s → %s', (text, expected) => {
    expect(valueIn(parseMonthDayWords(text))).toBe(expected);
  });
});

describe('times of day', () => {
  it.each([
    ['7:30', '07:30'],
    ['07.30', '07:30'],
    ['18.05', '18:05'],
    ['7 am', '07:00'],
    ['12 am', '00:00'],
    ['12:15pm', '12:15'],
    ['18h', '18:00'],
    ['noon', '12:00'],
    ['morning', 'refused'],
    ['24:00', 'refused'],
    ['7', 'refused'],
    ['mon 7:00', 'refused'],
  ])('%s → %s', (text, expected) => {
    expect(valueIn(parseTimeWords(text))).toBe(expected);
  });
});

describe('weekdays', () => {
  it.each([
    ['Mon-Wed', [1, 2, 3]],
    ['mon to thu', [1, 2, 3, 4]],
    ['mon, tue, wed', [1, 2, 3]],
    ['Wednesday & Mon', [1, 3]],
    ['1,2,3', [1, 2, 3]],
    ['1-3 5', [1, 2, 3, 5]],
    ['Fri-Mon', [1, 5, 6, 7]],
    ['weekdays', [1, 2, 3, 4, 5]],
    ['every day', [1, 2, 3, 4, 5, 6, 7]],
    ['sun', [7]],
    ['', 'refused'],
    ['0', 'refused'],
    ['8', 'refused'],
    ['mon-', 'refused'],
    ['mon-tue-wed', 'refused'],
    ['mon, foo', 'refused'],
    ['monty', 'refused'],
  ])('%s', (text, expected) => {
    expect(valueIn(parseWeekdays(text))).toEqual(expected);
  });
});

describe('kit steps', () => {
  it.each([
    ['0 5 10 20 40 80', [0, 5, 10, 20, 40, 80]],
    ['0, 0.25, 0.5 mg/L', [0, 0.25, 0.5]],
    ['0 5 100 20', 'refused'],
    ['0 5 5', 'refused'],
    ['-1 5', 'refused'],
    ['5', 'refused'],
    ['0 five', 'refused'],
    ['', 'refused'],
  ])('%s', (text, expected) => {
    expect(valueIn(parseKitSteps(text))).toEqual(expected);
  });
});

describe('ranges of names', () => {
  it.each([
    ['A1-A6', ['A1', 'A2', 'A3', 'A4', 'A5', 'A6']],
    ['A1 to A3', ['A1', 'A2', 'A3']],
    ['A1–3', ['A1', 'A2', 'A3']],
    ['B 1 - 3', ['B1', 'B2', 'B3']],
    ['Top 1 - 2', ['Top 1', 'Top 2']],
    ['Top1-2', ['Top1', 'Top2']],
    ['A08-A11', ['A08', 'A09', 'A10', 'A11']],
    ['A1,A2, A4', ['A1', 'A2', 'A4']],
    ['A1-A2, A2-A3', ['A1', 'A2', 'A3']],
    ['Q-1 - Q-2', ['Q-1', 'Q-2']],
    ['1-3', ['1', '2', '3']],
    ['quarantine', ['quarantine']],
    ['A6-A1', 'refused'],
    ['A1-B3', 'refused'],
    ['A1-A012', 'refused'],
    ['A1-A81', 'refused'],
    ['A1-A60, B1-B60', 'refused'],
    ['A1-A999999999', 'refused'],
    ['**A**', 'refused'],
    ['', 'refused'],
    [' , ', 'refused'],
  ])('%s', (text, expected) => {
    expect(valueIn(parseRange(text))).toEqual(expected);
  });

  it('hold as many as may be named at once', () => {
    expect(valueIn(parseRange(`A1-A${maxNamesAtOnce}`))).toHaveLength(maxNamesAtOnce);
  });

  it('say which name was bad', () => {
    expect(parseRange('A1, *6*')).toEqual({ ok: false, fault: { kind: 'bad-name', noun: 'tub', typed: '*6*' } });
  });

  it.each([
    ['A1, A6-A2', 'A6-A2'],
    ['A1-A81', 'A1-A81'],
    ['A1-A60, B1-B60', 'A1-A60, B1-B60'],
  ])('say that the range %s goes down or holds too many', (text, typed) => {
    expect(parseRange(text)).toEqual({ ok: false, fault: { kind: 'bad-range', typed, most: maxNamesAtOnce } });
  });

  it('count up from the first to the last', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 1, max: 80 }), (first, count) => {
        const found = valueIn(parseRange(`C${first}-C${first + count - 1}`));
        expect(found).toEqual(Array.from({ length: count }, (_, step) => `C${first + step}`));
      }),
    );
  });
});

describe('near names', () => {
  const names = ['orange', 'green', 'blue dream moss', 'A1', 'A10', 'A2'];

  it('come by spelling, then by a word of theirs', () => {
    expect(nearNames('ornage', names)).toEqual(['orange']);
    expect(nearNames('A1', names)[0]).toBe('A1');
    expect(nearNames('moss', names)).toEqual(['blue dream moss']);
    expect(nearNames('zzzzzz', names)).toEqual([]);
    expect(nearNames('', names)).toEqual([]);
    expect(nearNames('a', names, 2)).toHaveLength(2);
  });

  it('give a best guess only where one is nearer than all others', () => {
    expect(bestGuess('ornge', names)).toBe('orange');
    expect(bestGuess('A3', names)).toBeNull();
    expect(bestGuess('zzzzzz', names)).toBeNull();
    expect(bestGuess('nitrte', ['nitrate', 'nitrite'])).toBeNull();
  });
});
