// Words for a moment in a log. Amsterdam: winter is UTC+1, summer UTC+2; clocks go forward on 28 March 2027 at 02:00 and back
// on 31 October 2027 at 03:00 local time. "Now" is Wednesday 3 March 2027, 09:00 local, unless a test says otherwise.
import fc from 'fast-check';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { dayOf, type Instant, instantOf, timeOf } from '../../src/domain/index.ts';
import { parseWhen } from '../../src/words/index.ts';

fc.configureGlobal({ seed: 20270303 });

const zone = 'Europe/Amsterdam';
const at = (iso: string): Instant => instantOf(new Date(iso));
const now = at('2027-03-03T08:00:00Z');

const local = (text: string, seen: Instant = now, inZone = zone): string | undefined => {
  const found = parseWhen(text, { now: seen, zone: inZone });
  return found.ok ? `${dayOf(found.value.at, inZone)} ${timeOf(found.value.at, inZone)}` : undefined;
};

afterEach(() => vi.unstubAllEnvs());

describe('words for a moment', () => {
  it.each([
    ['now', '2027-03-03 09:00'],
    ['just now', '2027-03-03 09:00'],
    ['today', '2027-03-03 09:00'],
    ['yesterday 18:00', '2027-03-02 18:00'],
    ['18:00 yesterday', '2027-03-02 18:00'],
    ['Yesterday  at 6 PM.', '2027-03-02 18:00'],
    ['18:00', '2027-03-02 18:00'],
    ['08:59', '2027-03-03 08:59'],
    ['09:00', '2027-03-03 09:00'],
    ['18.30', '2027-03-02 18:30'],
    ['18h', '2027-03-02 18:00'],
    ['18h15', '2027-03-02 18:15'],
    ['12am', '2027-03-03 00:00'],
    ['noon', '2027-03-02 12:00'],
    ['midnight', '2027-03-03 00:00'],
    ['this morning', '2027-03-03 08:00'],
    ['last night', '2027-03-02 22:00'],
    ['yesterday evening', '2027-03-02 19:00'],
    ['evening', '2027-03-02 19:00'],
    ['2 h ago', '2027-03-03 07:00'],
    ['2h ago', '2027-03-03 07:00'],
    ['an hour ago', '2027-03-03 08:00'],
    ['half an hour ago', '2027-03-03 08:30'],
    ['1 h 20 min ago', '2027-03-03 07:40'],
    ['1,5 hours ago', '2027-03-03 07:30'],
    ['Mon 9am', '2027-03-01 09:00'],
    ['at 18:00 on Monday', '2027-03-01 18:00'],
    ['mon', '2027-03-01 12:00'],
    ['thurs', '2027-02-25 12:00'],
    ['Wed 08:00', '2027-03-03 08:00'],
    ['Wed 10:00', '2027-02-24 10:00'],
    ['last tues', '2027-03-02 12:00'],
    ['Mon 1 Mar 18:00', '2027-03-01 18:00'],
    ['2027-03-01', '2027-03-01 12:00'],
    ['2027-03-01 07:45', '2027-03-01 07:45'],
    ['2027-03-01T07:45', '2027-03-01 07:45'],
    ['2027-03-01T07:45Z', '2027-03-01 08:45'],
    ['2027-03-01T07:45:00+05:00', '2027-03-01 03:45'],
    ['1 Dec', '2026-12-01 12:00'],
    ['December 1st, 17:00', '2026-12-01 17:00'],
    ['25/12', '2026-12-25 12:00'],
    ['29 feb', '2024-02-29 12:00'],
    ['3 days ago', '2027-02-28 12:00'],
    ['a week ago', '2027-02-24 12:00'],
    ['the day before yesterday', '2027-03-01 12:00'],
  ])('%s', (text, expected) => {
    expect(local(text)).toBe(expected);
  });

  it.each([
    ['today 18:00', '2027-03-03 18:00'],
    ['this evening', '2027-03-03 19:00'],
    ['tomorrow', '2027-03-04 12:00'],
    ['2027-12-01', '2027-12-01 12:00'],
    ['next tue', '2027-03-09 12:00'],
  ])('leaves the future that was said outright to others: %s', (text, expected) => {
    expect(local(text)).toBe(expected);
  });

  it.each([
    ['', 'nothing'],
    ['foo', 'no word of time'],
    ['yesterday foo', 'a word left over'],
    ['25:00', 'no such hour'],
    ['13pm', 'no such hour'],
    ['9', 'a bare number'],
    ['2h', 'a length of time'],
    ['3/4', 'two orders of day and month'],
    ['1.12', 'a date or a time'],
    ['may', 'a month only'],
    ['mon tue', 'two days'],
    ['13:00 - 15:00', 'a stretch'],
    ['Wed 1 Dec', 'a Tuesday in 2026'],
    ['Wed 2027-03-01', 'a Monday'],
    ['10:00 UTC', 'a zone'],
  ])('refuses "%s": %s', (text) => {
    expect(parseWhen(text, { now, zone })).toEqual({
      ok: false,
      fault: { kind: 'bad-words', what: 'when', typed: text, example: 'yesterday 18:00' },
    });
  });

  it('says whether a time was named', () => {
    const dayOnly = (text: string): boolean | undefined => {
      const found = parseWhen(text, { now, zone });
      return found.ok ? found.value.dayOnly : undefined;
    };
    expect(['yesterday', 'today', 'Mon', '2027-03-01', '1 Dec'].map(dayOnly)).toEqual([true, true, true, true, true]);
    expect(['now', '18:00', 'Mon 9am', '2 h ago', 'this morning'].map(dayOnly)).toEqual(Array(5).fill(false));
  });

  it('takes a part of today that has begun for now rather than for the hours ahead', () => {
    expect(local('this morning', at('2027-03-03T05:10:00Z'))).toBe('2027-03-03 06:10');
    expect(local('tonight', at('2027-03-03T20:30:00Z'))).toBe('2027-03-03 21:30');
    expect(local('this morning', at('2027-03-03T03:10:00Z'))).toBe('2027-03-03 08:00');
  });

  it('gives its own example back understood', () => {
    const refused = parseWhen('nonsense', { now, zone });
    const example = !refused.ok && 'example' in refused.fault ? refused.fault.example : '';
    expect(parseWhen(example, { now, zone }).ok).toBe(true);
  });
});

describe('words for a moment over clock changes', () => {
  it('counts hours ago in real hours', () => {
    // 04:30 summer time; three hours before it was 00:30 winter time.
    expect(local('3 h ago', at('2027-03-28T02:30:00Z'))).toBe('2027-03-28 00:30');
  });

  it('keeps the wall time across the change', () => {
    expect(local('yesterday 18:00', at('2027-03-28T10:00:00Z'))).toBe('2027-03-27 18:00');
    expect(parseWhen('yesterday 18:00', { now: at('2027-03-28T10:00:00Z'), zone })).toMatchObject({
      value: { at: '2027-03-27T17:00:00.000Z' },
    });
  });

  it('reads a time inside the spring gap by the clock after the jump', () => {
    expect(local('02:30', at('2027-03-28T10:00:00Z'))).toBe('2027-03-28 03:30');
  });

  it('takes the later of two equal times in autumn once it has been', () => {
    const heard = (seen: string): unknown => parseWhen('02:30', { now: at(seen), zone });
    expect(heard('2027-10-31T01:15:00Z')).toMatchObject({ value: { at: '2027-10-31T00:30:00.000Z' } });
    expect(heard('2027-10-31T01:45:00Z')).toMatchObject({ value: { at: '2027-10-31T01:30:00.000Z' } });
  });

  it('knows the business day where it is another day than in UTC', () => {
    // 23:30 UTC on 2 March is 12:30 on 3 March in Auckland, and 15:30 on 2 March in Los Angeles.
    const seen = at('2027-03-02T23:30:00Z');
    expect(local('yesterday', seen, 'Pacific/Auckland')).toBe('2027-03-02 12:00');
    expect(local('yesterday', seen, 'America/Los_Angeles')).toBe('2027-03-01 12:00');
  });
});

describe('words for a moment, whatever the machine', () => {
  const texts = ['yesterday 18:00', '3 days ago', 'Mon 9am', 'a week ago', '1 Dec', 'last tue', '2 h ago', 'tomorrow'];

  it.each(['UTC', 'America/Los_Angeles', 'Pacific/Auckland', 'Europe/Amsterdam', 'Pacific/Apia'])(
    'in %s',
    (machine) => {
      vi.stubEnv('TZ', machine);
      expect(Intl.DateTimeFormat().resolvedOptions().timeZone).toBe(machine);
      // Also inside the hour that does not exist on a machine in Amsterdam.
      expect(texts.map((text) => local(text, at('2027-03-28T02:30:00Z'), 'UTC'))).toEqual([
        '2027-03-27 18:00',
        '2027-03-25 12:00',
        '2027-03-22 09:00',
        '2027-03-21 12:00',
        '2026-12-01 12:00',
        '2027-03-23 12:00',
        '2027-03-28 00:30',
        '2027-03-29 12:00',
      ]);
    },
  );

  it('does not look at the real clock', () => {
    const before = texts.map((text) => local(text));
    vi.useFakeTimers({ now: new Date('1999-12-31T23:59:59Z') });
    try {
      expect(texts.map((text) => local(text))).toEqual(before);
    } finally {
      vi.useRealTimers();
    }
  });

  it('never takes a bare time or weekday for the future, nor for longer ago than it must', () => {
    const zones = fc.constantFrom('Europe/London', 'America/New_York', 'Pacific/Auckland', 'Asia/Kolkata', 'UTC');
    const moments = fc.date({ min: new Date('2024-01-01'), max: new Date('2031-01-01'), noInvalidDate: true });
    const times = fc.tuple(fc.nat(23), fc.nat(59)).map((pair) => pair.map((n) => String(n).padStart(2, '0')).join(':'));
    const days = fc.constantFrom('', 'mon ', 'wed ', 'sun ');
    fc.assert(
      fc.property(zones, moments, times, days, (inZone, date, time, day) => {
        const seen = instantOf(date);
        const found = parseWhen(`${day}${time}`, { now: seen, zone: inZone });
        if (!found.ok) return false;
        const hoursBack = (date.getTime() - Date.parse(found.value.at)) / 3_600_000;
        return hoursBack >= 0 && hoursBack <= (day === '' ? 25 : 7 * 24 + 1);
      }),
      { numRuns: 300 },
    );
  });
});
