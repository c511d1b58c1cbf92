// Closed windows against a plain enumeration, day by day, over the eight years 2024 to 2031 (leap years 2024 and 2028).
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  type ClosedWindow,
  closedBy,
  day,
  isClosed,
  isWholeYear,
  type LocalDay,
  type MonthDay,
  reopensOn,
  windowEdges,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270303 });

const window = (from: string, to: string, name = 'winter'): ClosedWindow => ({
  id: 1,
  name,
  from: from as MonthDay,
  to: to as MonthDay,
});
const winter = window('11-15', '03-10');
const summer = window('07-01', '08-15', 'summer');

describe('a closed window', () => {
  it.each([
    ['2026-11-14', false],
    ['2026-11-15', true],
    ['2026-12-31', true],
    ['2027-01-01', true],
    ['2027-03-10', true],
    ['2027-03-11', false],
  ])('over the end of the year, both ends included: %s', (on, closed) => {
    expect(isClosed(winter, day(on))).toBe(closed);
  });

  it.each([
    ['12-01', '02-29', '2028-02-29', true],
    ['12-01', '02-29', '2028-03-01', false],
    ['12-01', '02-29', '2027-02-28', true],
    ['12-01', '02-29', '2027-03-01', false],
    ['02-29', '04-01', '2028-02-28', false],
    ['02-29', '04-01', '2028-02-29', true],
    ['02-29', '04-01', '2027-02-28', false],
    ['02-29', '04-01', '2027-03-01', true],
    ['02-29', '02-29', '2028-02-29', true],
    ['02-29', '02-29', '2027-02-28', false],
    ['02-29', '02-29', '2027-03-01', false],
  ])('%s to %s on %s: %s', (from, to, on, closed) => {
    expect(isClosed(window(from, to), day(on))).toBe(closed);
  });

  it('is named by the first that covers the day', () => {
    expect(closedBy([winter, summer], day('2027-07-20'))).toBe(summer);
    expect(closedBy([winter, summer], day('2027-05-20'))).toBeNull();
    expect(closedBy([], day('2027-07-20'))).toBeNull();
  });

  it('has its next closing and opening, from inside and from outside', () => {
    expect(windowEdges(winter, day('2027-05-01'))).toEqual({ closesOn: '2027-11-15', opensOn: '2028-03-11' });
    expect(windowEdges(winter, day('2027-01-13'))).toEqual({ closesOn: '2027-11-15', opensOn: '2027-03-11' });
    expect(windowEdges(winter, day('2027-11-14'))).toEqual({ closesOn: '2027-11-15', opensOn: '2028-03-11' });
    expect(windowEdges(winter, day('2027-11-15'))).toEqual({ closesOn: '2028-11-15', opensOn: '2028-03-11' });
    expect(windowEdges(window('02-29', '02-29'), day('2025-01-01'))).toEqual({
      closesOn: '2028-02-29',
      opensOn: '2028-03-01',
    });
  });

  it.each([
    ['01-01', '12-31'],
    ['03-01', '02-29'],
    ['11-15', '11-14'],
  ])('over the whole year is seen as such: %s to %s', (from, to) => {
    const whole = window(from, to);
    expect(isWholeYear(whole)).toBe(true);
    expect(windowEdges(whole, day('2027-05-01'))).toEqual({ closesOn: null, opensOn: null });
    expect(reopensOn([whole], day('2027-05-01'))).toBeNull();
  });

  it('over the whole year but one day is not', () => {
    expect(isWholeYear(window('01-02', '12-31'))).toBe(false);
    expect(isWholeYear(window('02-29', '02-27'))).toBe(false);
  });

  it('joined by another reopens when both are over', () => {
    const spring = window('03-05', '04-01', 'spring');
    expect(reopensOn([winter, spring], day('2027-01-13'))).toBe('2027-04-02');
    expect(reopensOn([winter, spring], day('2027-05-01'))).toBe('2027-05-01');
    expect(reopensOn([window('01-01', '06-30'), window('07-01', '12-31')], day('2027-05-01'))).toBeNull();
  });
});

describe('any closed window', () => {
  const first = day('2024-01-01');
  const all = Array.from({ length: 2922 }, (_, index) => addDays(first, index));
  const monthDays = [...new Set(all.map((on) => on.slice(5)))];
  const windows = fc.tuple(fc.constantFrom(...monthDays), fc.constantFrom(...monthDays));
  const leap = (year: number): boolean => year % 4 === 0;

  /** The closed days of the years, written out from the rule in words: 29 February ends on the 28th, begins on 1 March. */
  function enumerated(from: string, to: string): Set<LocalDay> {
    const closed = new Set<LocalDay>();
    for (let year = 2023; year <= 2031; year++) {
      const toYear = from <= to ? year : year + 1;
      const start = day(from === '02-29' && !leap(year) ? `${year}-03-01` : `${year}-${from}`);
      const end = day(to === '02-29' && !leap(toYear) ? `${toYear}-02-28` : `${toYear}-${to}`);
      for (let on = start; on <= end; on = addDays(on, 1)) closed.add(on);
    }
    return closed;
  }

  it('covers the days that its years cover one by one', () => {
    fc.assert(
      fc.property(windows, ([from, to]) => {
        const closed = enumerated(from, to);
        return all.every((on) => isClosed(window(from, to), on) === closed.has(on));
      }),
      { numRuns: 60 },
    );
  });

  it('has edges that are the first changes after the day', () => {
    fc.assert(
      fc.property(windows, fc.integer({ min: 0, max: 1000 }), ([from, to], index) => {
        const around = addDays(first, index);
        const of = window(from, to);
        const changes = (into: boolean): LocalDay | null =>
          all.find((on) => on > around && isClosed(of, on) === into && isClosed(of, addDays(on, -1)) !== into) ?? null;
        expect(windowEdges(of, around)).toEqual({ closesOn: changes(true), opensOn: changes(false) });
      }),
      { numRuns: 60 },
    );
  });
});
