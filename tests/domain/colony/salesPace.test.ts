import { describe, expect, it } from 'vitest';
import {
  type ClosedWindow,
  day,
  type MonthDay,
  paceStretch,
  wantedStock,
  weeklyPace,
} from '../../../src/domain/index.ts';

const winter: ClosedWindow = { id: 1, name: 'winter', from: '11-15' as MonthDay, to: '03-10' as MonthDay };
const longAgo = day('2020-01-01');

describe('the stretch that tells sales as now', () => {
  it('is eight weeks, today included', () => {
    expect(paceStretch([], day('2027-06-10'), longAgo)).toEqual({ from: '2027-04-16', openDays: 56 });
  });

  it('goes back over closed days, which count for nothing', () => {
    expect(paceStretch([winter], day('2027-03-24'), longAgo)).toEqual({ from: '2026-10-04', openDays: 56 });
    expect(paceStretch([winter], day('2027-01-10'), longAgo)).toEqual({ from: '2026-09-20', openDays: 56 });
  });

  it('begins with the line, and is a week at least', () => {
    expect(paceStretch([], day('2027-06-10'), day('2027-05-28'))).toEqual({ from: '2027-05-28', openDays: 14 });
    expect(paceStretch([], day('2027-06-10'), day('2027-06-09'))).toEqual({ from: '2027-06-09', openDays: 7 });
    expect(paceStretch([winter], day('2027-01-10'), day('2027-01-02'))).toMatchObject({ openDays: 7 });
  });

  it('gives animals a week to a tenth', () => {
    expect(weeklyPace(100, { from: longAgo, openDays: 56 })).toBe(12.5);
    expect(weeklyPace(0, { from: longAgo, openDays: 7 })).toBe(0);
  });
});

describe('the stock wanted when it opens again', () => {
  it.each([
    [0, 20],
    [4, 20],
    [7, 30],
    [14, 61],
  ])('at %s a week is %s', (weekly, stock) => expect(wantedStock(weekly)).toBe(stock));
});
