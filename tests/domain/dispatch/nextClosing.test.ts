import { describe, expect, it } from 'vitest';
import { type ClosedWindow, day, type MonthDay, nextClosing, openDaysBetween } from '../../../src/domain/index.ts';

const window = (from: string, to: string): ClosedWindow => ({
  id: 1,
  name: 'closed',
  from: from as MonthDay,
  to: to as MonthDay,
});
const winter = window('11-15', '03-10');

describe('the next closed stretch', () => {
  it.each([
    ['2027-04-13', '2027-11-15', '2028-03-11'],
    ['2027-11-14', '2027-11-15', '2028-03-11'],
    ['2027-11-15', '2027-11-15', '2028-03-11'],
    ['2027-12-20', '2027-12-20', '2028-03-11'],
    ['2028-03-10', '2028-03-10', '2028-03-11'],
    ['2028-03-11', '2028-11-15', '2029-03-11'],
  ])('seen from %s is %s to %s', (from, closesOn, opensOn) => {
    expect(nextClosing([winter], day(from))).toEqual({ closesOn, opensOn });
  });

  it('takes windows that touch as one', () => {
    expect(nextClosing([winter, window('03-11', '03-20')], day('2027-04-13'))).toEqual({
      closesOn: '2027-11-15',
      opensOn: '2028-03-21',
    });
  });

  it('is none without windows, and none where no day is open', () => {
    expect(nextClosing([], day('2027-04-13'))).toBeNull();
    expect(nextClosing([window('01-01', '12-31')], day('2027-04-13'))).toBeNull();
  });
});

describe('open days', () => {
  it('leave the last day and the closed ones out', () => {
    expect(openDaysBetween([winter], day('2027-11-10'), day('2028-03-13'))).toBe(7);
    expect(openDaysBetween([winter], day('2027-12-01'), day('2028-03-11'))).toBe(0);
    expect(openDaysBetween([], day('2027-04-13'), day('2027-04-13'))).toBe(0);
  });
});
