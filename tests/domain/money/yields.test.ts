import { describe, expect, it } from 'vitest';
import {
  type Chore,
  type Cost,
  choreMinutes,
  day,
  dayOf,
  daysInUse,
  daysWithin,
  type Instant,
  kindInWords,
  litresInUse,
  type MonthDay,
  type Movement,
  monthOf,
  monthsIn,
  newTubCostMinor,
  overlap,
  paybackMonths,
  perEach,
  perTen,
  taxYearOf,
  taxYearStart,
  taxYearsIn,
  tubEarnings,
} from '../../../src/domain/index.ts';

const zone = 'Europe/Amsterdam';
const at = (text: string): Instant => `${text}T12:00:00.000Z` as Instant;
const period = (first: string, last: string) => ({ first: day(first), last: day(last) });

describe('a period', () => {
  it('is a calendar month with its own number of days', () => {
    expect(monthOf(day('2028-02-10'))).toEqual(period('2028-02-01', '2028-02-29'));
    expect(monthOf(day('2026-12-31'))).toEqual(period('2026-12-01', '2026-12-31'));
  });

  it('has its months, the first and the last cut to it', () => {
    expect(monthsIn(period('2027-04-06', '2027-06-02'))).toEqual([
      period('2027-04-06', '2027-04-30'),
      period('2027-05-01', '2027-05-31'),
      period('2027-06-01', '2027-06-02'),
    ]);
    expect(overlap(period('2027-01-01', '2027-01-31'), period('2027-02-01', '2027-02-02'))).toBeUndefined();
  });

  it('tells the day of each of its moments as the calendar does', () => {
    const march = period('2027-03-20', '2027-04-05');
    for (const zone of ['Europe/Amsterdam', 'America/Santiago', 'Asia/Kathmandu']) {
      const dayAt = daysWithin(march, zone);
      for (let hour = 0; hour < 13 * 24; hour += 1) {
        const moment = new Date(Date.parse('2027-03-21T00:30:00Z') + hour * 3_600_000).toISOString() as Instant;
        expect(dayAt(moment)).toBe(dayOf(moment, zone));
      }
    }
  });

  // Income Tax Act 2007 (United Kingdom), section 4(3): a tax year begins on 6 April and ends on the following 5 April.
  it('is a tax year from 6 April in the United Kingdom, from 1 January elsewhere', () => {
    for (const region of ['GB', 'GB-SCT', 'GB-ENG']) expect(taxYearStart(region)).toBe('04-06');
    for (const region of [null, 'NL', 'US-OR', 'GBX']) expect(taxYearStart(region)).toBe('01-01');
    const uk = taxYearStart('GB');
    expect(taxYearOf(day('2027-04-05'), uk)).toEqual(period('2026-04-06', '2027-04-05'));
    expect(taxYearOf(day('2027-04-06'), uk)).toEqual(period('2027-04-06', '2028-04-05'));
    expect(taxYearOf(day('2026-12-31'), taxYearStart('NL'))).toEqual(period('2026-01-01', '2026-12-31'));
    expect(taxYearsIn(period('2026-04-05', '2027-04-06'), uk).map(({ first }) => first)).toEqual([
      '2025-04-06',
      '2026-04-06',
      '2027-04-06',
    ]);
  });

  it('begins on 1 March where it would on 29 February of a year without', () => {
    const leap = '02-29' as MonthDay;
    expect(taxYearOf(day('2027-06-01'), leap)).toEqual(period('2027-03-01', '2028-02-28'));
    expect(taxYearOf(day('2028-02-29'), leap)).toEqual(period('2028-02-29', '2029-02-28'));
  });
});

describe('what each brings', () => {
  it('is rounded to the nearest minor unit, a half away from nothing', () => {
    expect([perEach(100, 3), perEach(-100, 3), perEach(5, 2), perEach(-5, 2), perEach(-1, 9)]).toEqual([
      33, -33, 3, -3, 0,
    ]);
    expect([perEach(100, 0), perEach(100, -2), perTen(4321, 40)]).toEqual([null, null, 1080]);
  });

  it('counts litres by the days on which they were in use', () => {
    const tub = { addedAt: at('2027-03-01'), netLitres: 20, retired: null };
    const march = period('2027-03-01', '2027-03-31');
    expect(litresInUse([tub], march, zone)).toBe(20);
    const half = { ...tub, addedAt: at('2027-03-17'), retired: { at: at('2027-03-17'), reason: 'cracked' } };
    expect(daysInUse(half, march, zone)).toBe(1);
    expect(litresInUse([tub, { ...half, netLitres: 31 }], march, zone)).toBe(21);
    expect(daysInUse(tub, period('2027-02-01', '2027-02-28'), zone)).toBe(0);
  });

  it('counts the minutes of a chore once for a place and day, ticked or learnt from what was logged', () => {
    const chore = (id: number, more: Partial<Chore>): Chore => ({
      ...{ id, name: `chore ${id}`, act: 'own', everyDays: 7, minutes: 5, scope: 'tub', userId: null, off: false },
      ...{ season: 'all', dependsOn: 'interval', addedAt: at('2027-01-01') },
      ...more,
    });
    const tick = (choreId: number, tubId: number | null, on: string) => ({ choreId, tubId, rack: null, day: day(on) });
    const act = (tubId: number, on: string) => ({ act: 'change' as const, tubId, rack: 'A', day: day(on) });
    const done = {
      ticks: [
        tick(1, 1, '2027-03-01'),
        tick(1, 2, '2027-03-01'),
        tick(2, 1, '2027-03-01'),
        tick(4, null, '2027-03-02'),
      ],
      acts: [act(1, '2027-03-01'), act(1, '2027-03-01'), act(2, '2027-03-01'), act(1, '2027-03-08')],
    };
    const minutesOf = (...chores: Chore[]): number => choreMinutes(chores, done);
    expect(minutesOf(chore(1, {}))).toBe(10);
    expect(minutesOf(chore(2, { act: 'change', minutes: 2.5 }))).toBe(7.5);
    expect(minutesOf(chore(3, { act: 'change', scope: 'rack', minutes: 10 }))).toBe(20);
    expect(minutesOf(chore(4, { act: 'change', scope: 'business', off: true }))).toBe(5);
    expect(minutesOf(chore(1, {}), chore(5, { act: 'reading' }))).toBe(10);
  });

  it('reads the kind of a cost from its words where they say one', () => {
    expect(['Postage 41', 'feed', 'tub A7', 'boxes', 'feed and postage', 'feeding', 'other'].map(kindInWords)).toEqual([
      'postage',
      'feed',
      'tub',
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });
});

describe('the payback of a tub', () => {
  const line = { of: 'line', id: 1, name: 'jade' } as const;
  const base = { day: day('2027-03-01'), saleId: null, costKind: null };
  const movements: Movement[] = [
    { ...base, what: 'taken', minor: 60_000, pot: line },
    { ...base, what: 'fee', minor: 2000, pot: line },
    { ...base, what: 'refund', minor: 1000, pot: line },
    { ...base, what: 'cost', minor: 500, pot: line, costKind: 'feed' },
    { ...base, what: 'cost', minor: 9000, pot: line, costKind: 'tub' },
    { ...base, what: 'taken', minor: 20_000, pot: { of: 'line', id: 2, name: 'snow' } },
    { ...base, what: 'taken', minor: 8000, pot: { of: 'postage' } },
    { ...base, what: 'cost', minor: 12_000, pot: { of: 'shared' }, costKind: 'postage' },
    { ...base, what: 'cost', minor: 3000, pot: { of: 'shared' }, costKind: 'packing' },
    { ...base, what: 'cost', minor: 40_000, pot: { of: 'shared' }, costKind: 'gear' },
    { ...base, what: 'taken', minor: 700, pot: { of: 'goods', id: 1, name: 'moss' } },
  ];
  const sold = [
    { lineId: 1, name: 'jade', number: 300, day: base.day },
    { lineId: 2, name: 'snow', number: 50, day: base.day },
  ];

  it('goes by what a tub of the line nets a month, lasting things left out, with its part of what is shared', () => {
    // jade: 60000 − 2000 − 1000 − 500 and six sevenths of 8000 − 15000; four tubs for a year of 365.2425 days.
    const year = 365.2425;
    const [jade, snow] = tubEarnings(
      movements,
      sold,
      new Map([
        [1, 4 * year],
        [2, year],
      ]),
    );
    expect(jade).toEqual({ lineId: 1, name: 'jade', netPerMonthMinor: Math.round((56_500 - 6000) / 48) });
    expect(snow).toEqual({ lineId: 2, name: 'snow', netPerMonthMinor: Math.round((20_000 - 1000) / 12) });
    expect(tubEarnings(movements, [], new Map([[1, year]]))).toEqual([]);
    expect(tubEarnings(movements, sold, new Map())).toEqual([]);
  });

  it('is the months that the cost takes to come back, or never', () => {
    expect([paybackMonths(3800, 1000), paybackMonths(3000, 1000), paybackMonths(0, 10)]).toEqual([4, 3, 0]);
    expect([paybackMonths(3800, 0), paybackMonths(3800, -5)]).toEqual([null, null]);
  });

  it('takes a tub to cost what was spent on those that were bought, with their gear', () => {
    const spent = (amountMinor: number, kind: Cost['kind'], tub: number | null) => ({
      ...{ amountMinor, kind },
      tub: tub === null ? null : { id: tub, name: `A${tub}`, lineId: 1, lineName: 'jade' },
    });
    const costs = [
      spent(2000, 'tub', 1),
      spent(500, 'gear', 1),
      spent(3001, 'tub', 2),
      ...[spent(900, 'gear', 3), spent(100, 'feed', 1), spent(7000, 'tub', null)],
    ];
    expect(newTubCostMinor(costs)).toBe(2751);
    expect(newTubCostMinor([spent(900, 'gear', 3)])).toBeNull();
  });
});
