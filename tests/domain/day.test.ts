import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  day,
  dayOf,
  daysBetween,
  type Instant,
  instantAt,
  instantOf,
  isTimeZone,
  parseDay,
  parseMonthDay,
  parseWallTime,
  plusMs,
  timeOf,
  type WallTime,
  weekdayOf,
} from '../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const wall = (text: string): WallTime => text as WallTime;
const zones = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata', 'UTC'] as const;

describe('a calendar day', () => {
  it.each(['2028-02-29', '2000-02-29', '2027-12-31'])('%s is one', (text) => {
    expect(parseDay(text)).toBe(text);
  });
  it.each([
    '2027-02-29',
    '1900-02-29',
    '2027-13-01',
    '2027-00-10',
    '2027-4-1',
    '2027-04-31',
    '27-04-01',
    '',
    ' 2027-04-01',
  ])('"%s" is none', (text) => {
    expect(parseDay(text)).toBeUndefined();
    expect(() => day(text)).toThrow('not a calendar day');
  });

  it('steps over 29 February in a leap year only', () => {
    expect(addDays(day('2028-02-28'), 1)).toBe('2028-02-29');
    expect(addDays(day('2028-02-28'), 2)).toBe('2028-03-01');
    expect(addDays(day('2027-02-28'), 1)).toBe('2027-03-01');
    expect(addDays(day('2028-02-29'), 366)).toBe('2029-03-01');
    expect(addDays(day('2028-03-01'), -1)).toBe('2028-02-29');
    expect(daysBetween(day('2028-02-01'), day('2028-03-01'))).toBe(29);
  });

  it('knows its weekday: 29 February 2028 is a Tuesday', () => {
    expect(weekdayOf(day('2028-02-29'))).toBe(2);
    expect(weekdayOf(day('2027-04-18'))).toBe(7);
  });

  it('counts and steps in agreement', () => {
    const days = fc.date({ min: new Date('1990-01-01'), max: new Date('2090-01-01'), noInvalidDate: true });
    fc.assert(
      fc.property(days, fc.integer({ min: -4000, max: 4000 }), (date, n) => {
        const from = day(date.toISOString().slice(0, 10));
        const to = addDays(from, n);
        expect(daysBetween(from, to)).toBe(n);
        expect(Math.abs((weekdayOf(to) - weekdayOf(from) - n) % 7)).toBe(0);
      }),
    );
  });
});

describe('a recurring day and a time of day', () => {
  it('allows 29 February and no 30th', () => {
    expect(parseMonthDay('02-29')).toBe('02-29');
    expect(parseMonthDay('02-30')).toBeUndefined();
    expect(parseMonthDay('2-9')).toBeUndefined();
  });
  it('reads 7:30, 07:30 and 7.30', () => {
    expect(['7:30', '07:30', ' 7.30 '].map(parseWallTime)).toEqual(['07:30', '07:30', '07:30']);
    expect(['24:00', '12:60', '7', '7:3', 'noon'].map(parseWallTime)).toEqual(Array(5).fill(undefined));
  });
});

describe('the wall clock of a zone', () => {
  it('knows which zones there are', () => {
    expect(zones.every(isTimeZone)).toBe(true);
    expect(['Europe/Atlantis', '', 'noon'].some(isTimeZone)).toBe(false);
  });

  it.each<[string, string, string, string]>([
    ['Europe/London', '2027-07-01', '00:30', '2027-06-30T23:30:00.000Z'],
    ['America/New_York', '2027-01-15', '18:00', '2027-01-15T23:00:00.000Z'],
    ['Asia/Kolkata', '2027-04-13', '07:30', '2027-04-13T02:00:00.000Z'],
    ['Australia/Lord_Howe', '2027-07-01', '07:30', '2027-06-30T21:00:00.000Z'],
    ['Europe/London', '2028-02-29', '12:00', '2028-02-29T12:00:00.000Z'],
  ])('in %s %s %s is %s', (zone, on, time, instant) => {
    expect(instantAt(day(on), wall(time), zone)).toBe(instant);
  });

  // Clock changes by the IANA time zone database.
  it.each<[string, string, string, string, string]>([
    ['Europe/London', '2027-03-28', '01:30', '2027-03-28T01:30:00.000Z', '02:30'],
    ['America/New_York', '2027-03-14', '02:30', '2027-03-14T07:30:00.000Z', '03:30'],
    ['Australia/Lord_Howe', '2027-10-03', '02:15', '2027-10-02T15:45:00.000Z', '02:45'],
  ])('in %s the gap of %s swallows %s: the clock shows the time after the jump', (zone, on, time, instant, shown) => {
    expect(instantAt(day(on), wall(time), zone)).toBe(instant);
    expect(timeOf(instant as Instant, zone)).toBe(shown);
    expect(dayOf(instant as Instant, zone)).toBe(on);
  });

  it.each<[string, string, string, string, string]>([
    ['Europe/London', '2027-10-31', '01:30', '2027-10-31T00:30:00.000Z', '2027-10-31T01:30:00.000Z'],
    ['America/New_York', '2027-11-07', '01:30', '2027-11-07T05:30:00.000Z', '2027-11-07T06:30:00.000Z'],
    ['Australia/Lord_Howe', '2027-04-04', '01:45', '2027-04-03T14:45:00.000Z', '2027-04-03T15:15:00.000Z'],
  ])('in %s on %s %s comes twice: the first is meant', (zone, on, time, first, second) => {
    expect(instantAt(day(on), wall(time), zone)).toBe(first);
    expect([timeOf(first as Instant, zone), timeOf(second as Instant, zone)]).toEqual([time, time]);
  });

  const minutes = fc
    .integer({ min: 0, max: 60 * 24 * 366 * 6 })
    .map((n) => instantOf(new Date(Date.UTC(2026, 0, 1) + n * 60_000)));

  it('comes back from an instant: the same minute, or the other one of a doubled stretch', () => {
    fc.assert(
      fc.property(fc.constantFrom(...zones), minutes, (zone, at) => {
        const [on, time] = [dayOf(at, zone), timeOf(at, zone)];
        const back = instantAt(on, time, zone);
        expect([dayOf(back, zone), timeOf(back, zone)]).toEqual([on, time]);
        expect([at, plusMs(at, -3_600_000), plusMs(at, -1_800_000)]).toContain(back);
      }),
      { numRuns: 1000 },
    );
  });

  it('never runs backwards over the days', () => {
    fc.assert(
      fc.property(fc.constantFrom(...zones), minutes, (zone, at) => {
        expect(daysBetween(dayOf(at, zone), dayOf(plusMs(at, 86_400_000), zone))).toBeGreaterThanOrEqual(0);
        expect(dayOf(instantAt(dayOf(at, zone), wall('12:00'), zone), zone)).toBe(dayOf(at, zone));
      }),
    );
  });
});
