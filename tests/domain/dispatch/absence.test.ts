import { describe, expect, it } from 'vitest';
import {
  claimDaysOf,
  type DispatchQuestion,
  day,
  type Instant,
  isGoodDay,
  judgeDispatch,
  type LocalDay,
} from '../../../src/domain/index.ts';

const going = (name: string, from: string | null, to: string | null) => ({
  name,
  awayFrom: from as LocalDay | null,
  awayTo: to as LocalDay | null,
});

/** Monday to Wednesday, one day on the way, one of slack, claims for 24 hours: from a Tuesday, a claim may come Wednesday to Friday. */
const base: DispatchQuestion = {
  day: day('2027-08-03'),
  today: day('2027-07-12'),
  now: '2027-07-12T08:00:00.000Z' as Instant,
  windows: [],
  dispatchDays: [1, 2, 3],
  transitDays: 1,
  slackDays: 1,
  claimHours: 24,
  holidays: { sender: new Map(), buyer: new Map() },
  weather: [],
  ends: { from: 'home', to: 'Leeds' },
  partners: [],
  minTempC: 5,
  maxTempC: 26,
  abroad: false,
  island: false,
};
const judge = (partners: DispatchQuestion['partners'], more: Partial<DispatchQuestion> = {}) => {
  const judged = judgeDispatch({ ...base, ...more, partners });
  return { ...judged, kinds: judged.reasons.map(({ kind }) => kind), good: isGoodDay(judged) };
};

it('a claim may come from the earliest delivery until so many hours after the latest', () => {
  expect(claimDaysOf(base)).toEqual(['2027-08-04', '2027-08-05', '2027-08-06']);
  expect(claimDaysOf({ ...base, claimHours: 2 })).toHaveLength(3);
  expect(claimDaysOf({ ...base, claimHours: 48, slackDays: 0 })).toEqual(['2027-08-04', '2027-08-05', '2027-08-06']);
});

describe('a dispatch day', () => {
  it.each([
    ['2027-08-06', '2027-08-20', true],
    ['2027-08-03', '2027-08-03', true],
    ['2027-07-20', '2027-08-04', true],
    ['2027-08-07', '2027-08-20', false],
    ['2027-07-20', '2027-08-02', false],
  ])('with all away %s to %s is closed: %s', (from, to, isClosed) => {
    const judged = judge([going('wren', from, to), going('alder', '2027-07-01', '2027-09-01')]);
    expect(judged.kinds.includes('nobody-there')).toBe(isClosed);
    expect(judged.verdict).toBe(isClosed ? 'no' : 'ask');
    expect(judged.good).toBe(!isClosed);
  });

  it('names the days on which all are away first', () => {
    const both = [going('wren', '2027-08-05', '2027-08-20'), going('alder', '2027-08-06', null)];
    expect(judge(both).reasons[0]).toEqual({
      kind: 'nobody-there',
      absence: { from: '2027-08-06', to: '2027-08-20' },
    });
    expect(judge([going('wren', '2027-08-05', '2027-08-20')]).verdict).toBe('no');
  });

  it('is asked about while one partner is away when a claim may come, and stays a good day', () => {
    const one = [going('wren', '2027-08-06', '2027-08-20'), going('alder', null, null)];
    expect(judge(one)).toMatchObject({ verdict: 'ask', good: true });
    expect(judge(one).reasons[0]).toEqual({
      kind: 'partner-away',
      name: 'wren',
      absence: { from: '2027-08-06', to: '2027-08-20' },
    });
  });

  it('may go where one partner is away on the day alone, or after the last claim', () => {
    const one = (from: string, to: string) => judge([going('wren', from, to), going('alder', null, null)]).kinds;
    expect(one('2027-08-01', '2027-08-03')).not.toContain('partner-away');
    expect(one('2027-08-07', '2027-08-20')).not.toContain('partner-away');
  });

  it('is not judged by people where none are known', () => {
    expect(judge([]).verdict).toBe('may go');
  });
});
