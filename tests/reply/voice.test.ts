import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, day, defaultBusiness, type Instant, instantOf } from '../../src/domain/index.ts';
import {
  ageWords,
  counted,
  dateWords,
  dayWords,
  figure,
  listWords,
  litresWords,
  loggedWords,
  mgLWords,
  minorDigits,
  momentWords,
  moneyWords,
  monthDayWords,
  shareWords,
  sinceWords,
  someWords,
  tempWords,
  type Voice,
  voiceFor,
} from '../../src/reply/index.ts';

fc.configureGlobal({ seed: 20270413 });

// Tuesday 13 April 2027, 23:30 in Amsterdam, where it is still the 13th while it is 21:30 in UTC.
const now = '2027-04-13T21:30:00.000Z' as Instant;
const voice: Voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);
const us: Voice = { ...voice, units: 'us', currency: 'USD' };

describe('days and moments', () => {
  it('are named from here: today, tomorrow, yesterday, else the date, with the year when it is another', () => {
    expect(['2027-04-13', '2027-04-14', '2027-04-12', '2027-04-20'].map((text) => dayWords(voice, day(text)))).toEqual([
      'today',
      'tomorrow',
      'yesterday',
      'Tue 20 Apr',
    ]);
    expect(dateWords(voice, day('2028-02-29'))).toBe('Tue 29 Feb 2028');
    expect(monthDayWords('02-29')).toBe('29 Feb');
  });

  it("are in the business's zone, not in UTC", () => {
    expect(momentWords(voice, '2027-04-13T16:52:00.000Z' as Instant)).toBe('18:52');
    expect(sinceWords(voice, '2027-04-13T16:52:00.000Z' as Instant)).toBe('today 18:52');
    expect(momentWords(voice, '2027-04-12T22:30:00.000Z' as Instant)).toBe('00:30');
    expect(momentWords(voice, '2027-04-12T21:30:00.000Z' as Instant)).toBe('yesterday 23:30');
    expect(sinceWords(voice, '2027-04-11T17:10:00.000Z' as Instant)).toBe('Sun 11 Apr 19:10');
    expect(loggedWords(voice, 'wren')).toBe('logged by wren 23:30');
  });

  it('have an age in whole days', () => {
    const at = (text: string) => ageWords(voice, text as Instant);
    expect(at('2027-04-13T08:00:00.000Z')).toBe('today');
    expect(at('2027-04-14T08:00:00.000Z')).toBe('today');
    expect(at('2027-04-12T08:00:00.000Z')).toBe('yesterday');
    expect(at('2027-04-10T08:00:00.000Z')).toBe('3 days ago');
  });
});

describe('figures', () => {
  it('have no needless zeros and a unit', () => {
    expect([figure(7.5), figure(7), figure(0.04), figure(-0.04), figure(7.25, 2)]).toEqual([
      '7.5',
      '7',
      '0',
      '0',
      '7.25',
    ]);
    expect([mgLWords(12.4), mgLWords(9.96), mgLWords(0.25)]).toEqual(['12 mg/L', '10 mg/L', '0.3 mg/L']);
    expect([litresWords(voice, 7.5), litresWords(us, 7.5)]).toEqual(['7.5 L', '7.5 L (2 gal)']);
    expect([shareWords(voice, 5, 25), shareWords(us, 5, 25)]).toEqual(['5 L (25 %)', '5 L (1.3 gal, 25 %)']);
    expect([tempWords(voice, 21.44), tempWords(us, 22)]).toEqual(['21.4 °C', '71.6 °F']);
  });

  it('are money with its sign and the decimals of its currency', () => {
    expect(moneyWords(voice, 3400)).toBe('€34.00');
    expect(moneyWords({ ...voice, currency: 'JPY' }, 3400)).toBe('JP¥3,400');
    expect(moneyWords({ ...voice, currency: 'KWD' }, 1234)).toMatch(/1\.234$/);
    expect(['EUR', 'JPY', 'KWD'].map(minorDigits)).toEqual([2, 0, 3]);
  });

  it('count in the singular and the plural', () => {
    expect([counted(1, 'day'), counted(2, 'day'), counted(0, 'day'), counted(2, 'loss', 'losses')]).toEqual([
      '1 day',
      '2 days',
      '0 days',
      '2 losses',
    ]);
  });
});

describe('lists', () => {
  it('end in words', () => {
    expect([listWords([]), listWords(['A1']), listWords(['A1', 'A2']), listWords(['A1', 'A2', 'A4'], 'or')]).toEqual([
      '',
      'A1',
      'A1 and A2',
      'A1, A2 or A4',
    ]);
    expect(someWords(['A1', 'A2', 'A3', 'A4'], 2)).toBe('A1, A2 and 2 more');
  });
});

it('never says NaN or undefined, whatever the day, the zone and the amount', () => {
  const zones = fc.constantFrom('Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata');
  const instants = fc
    .integer({ min: Date.UTC(2020, 0, 1), max: Date.UTC(2040, 0, 1) })
    .map((ms) => instantOf(new Date(ms)));
  const amounts = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(zones, instants, instants, amounts, fc.boolean(), (zone, here, at, value, isUs) => {
      const own = voiceFor({ ...defaultBusiness, zone, units: isUs ? 'us' : 'metric' }, here);
      const said = [
        dateWords(own, own.today),
        dayWords(own, addDays(own.today, Math.round(value % 400))),
        momentWords(own, at),
        sinceWords(own, at),
        ageWords(own, at),
        figure(value, 2),
        litresWords(own, value),
        shareWords(own, value, 25),
        tempWords(own, value),
        mgLWords(value),
        moneyWords(own, Math.round(value)),
      ].join('\n');
      expect(said).not.toMatch(/NaN|undefined|null|Infinity|e[+-]\d/);
    }),
  );
});
