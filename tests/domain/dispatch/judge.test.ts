// The verdict on a dispatch day. April 2027: the 12th is a Monday. Good Friday is 26 March, Easter Monday 29 March (GOV.UK
// bank holidays, commit cb2a016). The rule that transit and slack must all be delivery days: common practice, no source.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  type ClosedWindow,
  type DispatchJudgement,
  type DispatchQuestion,
  day,
  type Instant,
  isClosed,
  isGoodDay,
  judgeDispatch,
  type LocalDay,
  type MonthDay,
  nextGoodDay,
  type Weather,
  type Weekday,
  weekdayOf,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270303 });

const easter = new Map([
  [day('2027-03-26'), 'Good Friday'],
  [day('2027-03-29'), 'Easter Monday'],
]);
const winter: ClosedWindow = { id: 1, name: 'winter', from: '11-15' as MonthDay, to: '03-10' as MonthDay };
const base: DispatchQuestion = {
  day: day('2027-04-20'),
  today: day('2027-04-12'),
  now: '2027-04-12T08:00:00.000Z' as Instant,
  windows: [winter],
  dispatchDays: [1, 2, 3],
  transitDays: 1,
  slackDays: 1,
  claimHours: 24,
  partners: [],
  holidays: { sender: easter, buyer: easter },
  weather: [],
  ends: { from: 'home', to: 'Leeds' },
  minTempC: 5,
  maxTempC: 26,
  abroad: false,
  island: false,
};
const judge = (changes: Partial<DispatchQuestion>): DispatchJudgement => judgeDispatch({ ...base, ...changes });
const kinds = (judgement: DispatchJudgement): string[] => judgement.reasons.map((reason) => reason.kind);
const forecast = (changes: Partial<Weather>): Weather => ({
  day: base.day,
  area: 'Leeds',
  lowC: 8,
  highC: 17,
  at: '2027-04-12T07:00:00.000Z' as Instant,
  by: 'wren',
  ...changes,
});

describe('a dispatch day', () => {
  it('may go inside the season, far ahead without a forecast, with a note', () => {
    expect(judge({})).toEqual({
      day: '2027-04-20',
      verdict: 'may go',
      reasons: [{ kind: 'forecast-not-looked-at', day: '2027-04-20' }],
      deliveryDays: ['2027-04-21', '2027-04-22'],
      air: null,
    });
  });

  it('may go without a word where the forecast is known and fine', () => {
    expect(judge({ weather: [forecast({})] })).toMatchObject({ verdict: 'may go', reasons: [] });
  });

  it('is no when it is past', () => {
    expect(judge({ day: day('2027-04-07') })).toMatchObject({
      verdict: 'no',
      reasons: [{ kind: 'past', day: '2027-04-07', today: '2027-04-12' }, { kind: 'forecast-missing' }],
    });
    expect(kinds(judge({ day: base.today }))).not.toContain('past');
  });

  it('is no in a closed window, with the day it reopens', () => {
    expect(judge({ day: day('2028-01-12') })).toMatchObject({
      verdict: 'no',
      reasons: [{ kind: 'closed-window', window: winter, reopensOn: '2028-03-11' }, {}],
    });
  });

  it('is no on a weekday on which nothing is sent', () => {
    const thursday = judge({ day: day('2027-04-22') });
    expect(thursday.verdict).toBe('no');
    expect(thursday.reasons[0]).toEqual({ kind: 'not-a-dispatch-day', weekday: 4, dispatchDays: [1, 2, 3] });
    expect(thursday.reasons[1]).toEqual({ kind: 'weekend-in-transit', day: '2027-04-24', weekday: 6 });
  });

  it.each([
    ['2027-03-24', 'sender', '2027-03-26', 'Good Friday'],
    ['2027-03-24', 'buyer', '2027-03-26', 'Good Friday'],
    ['2027-03-24', 'both', '2027-03-26', 'Good Friday'],
  ])('is no when the parcel may lie over a holiday: %s, %s', (on, whose, holiday, name) => {
    const none = new Map<LocalDay, string>();
    const holidays = { sender: whose === 'buyer' ? none : easter, buyer: whose === 'sender' ? none : easter };
    const found = judge({ day: day(on), today: day('2027-03-12'), holidays });
    expect(found.verdict).toBe('no');
    expect(found.reasons[0]).toEqual({ kind: 'holiday', day: holiday, name, whose, on: 'way' });
  });

  it("is no on the sender's holiday; the buyer's keeps nobody from sending", () => {
    const monday = { day: day('2027-03-29'), today: day('2027-03-12') };
    const none = new Map<LocalDay, string>();
    expect(judge({ ...monday, holidays: { sender: easter, buyer: none } }).reasons[0]).toEqual({
      ...{ kind: 'holiday', day: '2027-03-29', name: 'Easter Monday', whose: 'sender', on: 'dispatch' },
    });
    expect(judge({ ...monday, holidays: { sender: none, buyer: easter } }).verdict).toBe('may go');
  });

  it('before a weekend is right for a day of slack and wrong for two', () => {
    const wednesday = day('2027-04-21');
    expect(judge({ day: wednesday, slackDays: 1 }).verdict).toBe('may go');
    const slower = judge({ day: wednesday, slackDays: 2 });
    expect(slower.reasons[0]).toEqual({ kind: 'weekend-in-transit', day: '2027-04-24', weekday: 6 });
    expect(slower.deliveryDays).toEqual(['2027-04-22', '2027-04-23', '2027-04-24']);
  });

  it('is no in air too cold or too hot anywhere on the way, the bounds themselves allowed', () => {
    expect(judge({ weather: [forecast({ lowC: 5, highC: 26 })] }).verdict).toBe('may go');
    expect(judge({ weather: [forecast({}), forecast({ area: 'Hull', lowC: 4.9 })] })).toMatchObject({
      verdict: 'no',
      reasons: [{ kind: 'too-cold', area: 'Hull', lowC: 4.9, minTempC: 5, day: base.day }],
    });
    expect(judge({ weather: [forecast({ day: addDays(base.day, 2), highC: 27 })] })).toMatchObject({
      verdict: 'no',
      reasons: [{ kind: 'too-hot', highC: 27, maxTempC: 26 }],
    });
  });

  it('is judged by the newest forecast of a place, and by none for other days', () => {
    const older = forecast({ lowC: 1, at: '2027-04-11T07:00:00.000Z' as Instant });
    expect(judge({ weather: [older, forecast({ area: ' leeds' })] }).verdict).toBe('may go');
    expect(kinds(judge({ weather: [forecast({ day: addDays(base.day, 3), lowC: -5 })] }))).toEqual([
      'forecast-not-looked-at',
    ]);
    expect(kinds(judge({ weather: [forecast({ day: addDays(base.day, -1), lowC: -5 })] }))).toEqual([
      'forecast-not-looked-at',
    ]);
  });

  it('asks within two days when no forecast is known or the known one is older than a day', () => {
    const soon = { day: day('2027-04-14') };
    expect(judge(soon)).toMatchObject({ verdict: 'ask', reasons: [{ kind: 'forecast-missing', day: '2027-04-14' }] });
    expect(judge({ day: day('2027-04-19'), today: day('2027-04-16') }).verdict).toBe('may go');
    const known = (at: string): Weather[] => [
      forecast({ day: soon.day, area: 'home' }),
      forecast({ day: addDays(soon.day, 1), at: at as Instant }),
    ];
    expect(judge({ ...soon, weather: known('2027-04-11T08:00:00.000Z') }).verdict).toBe('may go');
    expect(judge({ ...soon, weather: known('2027-04-11T07:30:00.000Z') })).toMatchObject({
      verdict: 'ask',
      reasons: [{ kind: 'forecast-old', area: 'Leeds', ageHours: 24.5 }],
    });
    expect(judge({ weather: [forecast({ at: '2027-04-01T07:30:00.000Z' as Instant })] }).verdict).toBe('may go');
  });

  it('asks within two days for the end, and the night between, that nobody has looked at', () => {
    const soon = { day: day('2027-04-13') };
    const at = (area: string, ahead: number): Weather => forecast({ area, day: addDays(soon.day, ahead) });
    const gaps = (changes: Partial<DispatchQuestion>) =>
      judge({ ...soon, ...changes }).reasons.flatMap((reason) =>
        reason.kind === 'forecast-gaps' ? reason.missing.map(({ area, day: on }) => `${area} ${on}`) : [],
      );
    expect(judge({ ...soon, weather: [at('home', 0)] }).verdict).toBe('ask');
    expect(gaps({ weather: [at('home', 0)] })).toEqual(['Leeds 2027-04-14']);
    expect(gaps({ weather: [at('Leeds', 1)] })).toEqual(['home 2027-04-13']);
    expect(gaps({ weather: [at('leeds', 0), at('home', 1)] })).toEqual(['home 2027-04-13', 'Leeds 2027-04-14']);
    expect(judge({ ...soon, weather: [at('HOME', 0), at('leeds', 1)] })).toMatchObject({
      verdict: 'may go',
      reasons: [],
    });
    const slow = { transitDays: 2, slackDays: 0 };
    expect(gaps({ ...slow, weather: [at('home', 0), at('Leeds', 2)] })).toEqual(['Leeds 2027-04-14']);
    for (const area of ['home', 'Leeds']) {
      expect(gaps({ ...slow, weather: [at('home', 0), at(area, 1), at('Leeds', 2)] })).toEqual([]);
    }
    expect(gaps({ weather: [at('home', 0)], ends: { from: 'home', to: null } })).toEqual(['null 2027-04-14']);
    expect(gaps({ today: day('2027-04-10'), weather: [at('home', 0)] })).toEqual([]);
  });

  it('knows the air on the way at its worst, with the age of the oldest forecast', () => {
    const older = '2027-04-12T05:00:00.000Z' as Instant;
    const weather = [
      forecast({ area: 'home', lowC: 6 }),
      forecast({ day: addDays(base.day, 2), highC: 21, at: older }),
      forecast({ day: addDays(base.day, 3), lowC: -9 }),
    ];
    expect(judge({ weather }).air).toEqual({ lowC: 6, highC: 21, at: older });
  });

  it('asks across a border and to an island', () => {
    expect(judge({ abroad: true, island: true, weather: [forecast({})] })).toMatchObject({
      verdict: 'ask',
      reasons: [{ kind: 'abroad' }, { kind: 'island' }],
    });
  });

  it('puts what decides first: no before ask before a note', () => {
    expect(kinds(judge({ day: day('2027-11-18'), abroad: true }))).toEqual([
      ...['closed-window', 'not-a-dispatch-day', 'weekend-in-transit', 'abroad', 'forecast-not-looked-at'],
    ]);
    expect(judge({ day: day('2027-11-18'), abroad: true }).verdict).toBe('no');
  });
});

describe('the next good day', () => {
  const judgeOn = (changes: Partial<DispatchQuestion>) => (on: LocalDay) => judge({ ...changes, day: on });

  it.each([
    ['2027-01-13', '2027-03-15'],
    ['2027-03-23', '2027-03-30'],
    ['2027-04-12', '2027-04-13'],
    ['2027-04-14', '2027-04-19'],
  ])('after %s is %s', (from, expected) => {
    expect(nextGoodDay(day(from), judgeOn({ today: day('2027-01-01') }))).toBe(expected);
  });

  it('skips a cold day, and takes one that is only asked about for want of a forecast, abroad or to an island', () => {
    const weather = [forecast({ day: day('2027-04-14'), lowC: 2 }), forecast({ day: day('2027-04-15'), lowC: 2 })];
    expect(nextGoodDay(base.today, judgeOn({ weather }))).toBe('2027-04-19');
    expect(nextGoodDay(base.today, judgeOn({ abroad: true, island: true }))).toBe('2027-04-13');
  });

  it('is none where the whole year is closed or no weekday is left', () => {
    const whole: ClosedWindow = { id: 2, name: 'all', from: '01-01' as MonthDay, to: '12-31' as MonthDay };
    expect(nextGoodDay(base.today, judgeOn({ windows: [whole] }))).toBeNull();
    expect(nextGoodDay(base.today, judgeOn({ dispatchDays: [] }))).toBeNull();
  });

  it('really is good, and no day before it is', () => {
    const days = fc.integer({ min: 0, max: 1500 }).map((n) => addDays(day('2026-01-01'), n));
    const weekdays = fc.uniqueArray(fc.constantFrom<Weekday>(1, 2, 3, 4, 5), { minLength: 1 });
    const ways = fc.record({ transitDays: fc.integer({ min: 1, max: 2 }), slackDays: fc.integer({ min: 0, max: 2 }) });
    fc.assert(
      fc.property(days, weekdays, ways, fc.boolean(), (from, dispatchDays, way, abroad) => {
        const ask = judgeOn({ ...way, dispatchDays, abroad, today: from });
        const found = nextGoodDay(from, ask);
        for (let on = addDays(from, 1); found === null || on < found; on = addDays(on, 1)) {
          expect(isGoodDay(ask(on))).toBe(false);
          if (on > addDays(from, 399)) return;
        }
        const judgement = ask(found);
        expect(judgement.verdict).not.toBe('no');
        expect(isClosed(winter, found)).toBe(false);
        expect(dispatchDays).toContain(weekdayOf(found));
        for (let ahead = 1; ahead <= way.transitDays + way.slackDays; ahead++) {
          const on = addDays(found, ahead);
          expect(weekdayOf(on)).toBeLessThan(6);
          expect(easter.has(on)).toBe(false);
        }
      }),
    );
  });
});
