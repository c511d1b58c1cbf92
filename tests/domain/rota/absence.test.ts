import { describe, expect, it } from 'vitest';
import { allAway, awayOnOneOf, day, type LocalDay } from '../../../src/domain/index.ts';

const going = (name: string, from: string | null, to: string | null) => ({
  name,
  awayFrom: from as LocalDay | null,
  awayTo: to as LocalDay | null,
});

describe('the days on which all are away', () => {
  it('are those that all absences share', () => {
    const both = [going('wren', '2027-08-01', '2027-08-12'), going('alder', '2027-08-03', '2027-08-20')];
    expect(allAway(both)).toEqual({ from: '2027-08-03', to: '2027-08-12' });
    expect(allAway(both.slice(0, 1))).toEqual({ from: '2027-08-01', to: '2027-08-12' });
    expect(allAway([going('wren', '2027-08-03', '2027-08-03'), both[1] ?? going('', null, null)])).toEqual({
      from: '2027-08-03',
      to: '2027-08-03',
    });
  });

  it('are none where somebody is there, or one comes back before the other goes', () => {
    expect(allAway([])).toBeNull();
    expect(allAway([going('wren', '2027-08-01', '2027-08-12'), going('alder', null, null)])).toBeNull();
    expect(allAway([going('wren', '2027-08-01', '2027-08-05'), going('alder', '2027-08-06', '2027-08-20')])).toBeNull();
  });

  it('have no end, or no beginning, where no absence has', () => {
    expect(allAway([going('wren', '2027-08-01', null), going('alder', '2027-08-03', null)])).toEqual({
      from: '2027-08-03',
      to: null,
    });
    expect(allAway([going('wren', null, '2027-08-04')])).toEqual({ from: null, to: '2027-08-04' });
  });
});

it('who is away on one of some days', () => {
  const partners = [going('wren', '2027-08-01', '2027-08-05'), going('alder', null, null)];
  const on = (...days: string[]) => awayOnOneOf(partners, days.map(day)).map(({ name }) => name);
  expect(on('2027-07-31', '2027-08-01')).toEqual(['wren']);
  expect(on('2027-08-06', '2027-08-07')).toEqual([]);
  expect(on()).toEqual([]);
});
