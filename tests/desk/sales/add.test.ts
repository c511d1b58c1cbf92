import { afterEach, describe, expect, it } from 'vitest';
import {
  addSale,
  addTubs,
  editSale,
  logWeather,
  openSales,
  setLine,
  setSeason,
  stateOf,
  undo,
} from '../../../src/desk/index.ts';
import { day, type LocalDay, type MonthDay, parseMonthDay } from '../../../src/domain/index.ts';
import { rowCounts } from '../../support/rowCounts.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
const at = (instant: string, counts = {}) => {
  test = sellingDeskAt(instant, counts);
  return test;
};
afterEach(() => test.close());

const monthDay = (text: string): MonthDay => {
  const parsed = parseMonthDay(text);
  if (parsed === undefined) throw new Error(text);
  return parsed;
};
const jade = (number: number) => [{ of: 'line' as const, name: 'jade', number }];
const freeJade = () => test.jade().free;

describe('a sale on a day that is not good is booked, and warned of with the right next day', () => {
  const book = (on: string) => taken(addSale(test.desk, test.by('wren'), { items: jade(10), dispatchOn: day(on) }));
  const close = (from: string, to: string) =>
    taken(setSeason(test.desk, test.by('wren'), { from: monthDay(from), to: monthDay(to), name: 'winter' }));

  it.each([
    [
      'inside a window over the year’s end',
      '2026-11-01',
      ['11-15', '03-10'],
      '2027-01-13',
      'closed-window',
      '2027-03-15',
    ],
    ['in the old year’s part of it', '2026-11-01', ['11-15', '03-10'], '2026-12-30', 'closed-window', '2027-03-15'],
    ['on 29 February', '2028-01-10', ['12-01', '02-29'], '2028-02-29', 'closed-window', '2028-03-01'],
    ['on a Friday', '2027-03-10', null, '2027-03-19', 'not-a-dispatch-day', '2027-03-22'],
    ['on the day before a holiday', '2027-04-12', null, '2027-04-26', 'holiday', '2027-04-28'],
    ['on the holiday', '2027-04-12', null, '2027-04-27', 'holiday', '2027-04-28'],
  ] as const)('%s', (_, now, window, on, reason, next) => {
    at(`${now}T09:00:00Z`);
    if (window !== null) close(window[0], window[1]);
    const { sale, judged } = book(on);
    expect(judged).toMatchObject({ verdict: 'no', good: false, next });
    expect(judged?.reasons[0]?.kind).toBe(reason);
    expect(sale.dispatchOn).toBe(on);
    expect(freeJade()).toBe(test.freeUntouched() - 12);
  });

  it('lets a day in the season go, with the forecast not looked at', () => {
    at('2027-03-10T09:00:00Z');
    close('11-15', '03-10');
    expect(book('2027-03-15').judged).toMatchObject({
      verdict: 'may go',
      good: true,
      reasons: [{ kind: 'forecast-not-looked-at' }],
    });
  });

  it('looks at the holidays of the buyer too, and asks before a border', () => {
    at('2027-03-10T09:00:00Z');
    const input = { items: jade(10), region: 'Ireland', dispatchOn: day('2027-03-16') };
    const { sale, judged } = taken(addSale(test.desk, test.by('wren'), input));
    expect(sale.region).toBe('IE');
    expect(judged?.reasons).toMatchObject([
      { kind: 'holiday', day: '2027-03-17', whose: 'buyer', on: 'way' },
      { kind: 'abroad' },
      { kind: 'forecast-not-looked-at' },
    ]);
    expect(judged?.next).toBe('2027-03-17');
  });

  it('refuses a day that is past, and writes nothing', () => {
    at('2027-03-10T09:00:00Z');
    const refused = addSale(test.desk, test.by('wren'), { items: jade(10), dispatchOn: day('2027-03-09') });
    expect(faultOf(refused)).toEqual({ kind: 'past-day', day: '2027-03-09', today: '2027-03-10' });
    expect(openSales(test.desk)).toEqual([]);
    expect(freeJade()).toBe(test.freeUntouched());
  });

  it('proposes the next good day where none is said', () => {
    at('2027-03-10T09:00:00Z');
    const booked = taken(addSale(test.desk, test.by('wren'), { items: jade(10) }));
    expect(booked).toMatchObject({ proposed: true, sale: { dispatchOn: '2027-03-15' }, judged: { verdict: 'may go' } });
  });
});

describe('what a sale reserves', () => {
  it('promises the last animals once, exactly', () => {
    at('2027-03-10T09:00:00Z', { A1: 24, A2: 5 });
    const free = freeJade();
    const { fits, fitsExtras } = test.largest();
    expect(fits).toBeGreaterThan(5);
    expect(fits + 1 + test.extrasOf(fits + 1)).toBeGreaterThan(free);
    test.sell(fits);
    const left = free - fits - fitsExtras;
    expect(freeJade()).toBe(left);
    const second = faultOf(addSale(test.desk, test.by('wren'), { items: jade(10) }));
    expect(second).toMatchObject({ kind: 'not-enough', what: 'jade', asked: 10, extras: 2, free: left, fits: 0 });
    expect(faultOf(addSale(test.desk, test.by('wren'), { items: jade(1) })).kind).toBe('not-enough');
    expect(openSales(test.desk)).toHaveLength(1);
    expect(freeJade()).toBe(left);
  });

  it('promises animals one by one until none is free, and never one more', () => {
    at('2027-03-10T09:00:00Z', { A1: 24, A2: 5 });
    const free = freeJade();
    const each = 1 + test.extrasOf(1);
    const most = Math.floor(free / each);
    for (let sales = 1; sales <= most; sales++) {
      test.sell(1);
      expect(freeJade()).toBe(free - sales * each);
    }
    expect(faultOf(addSale(test.desk, test.by('wren'), { items: jade(1) })).kind).toBe('not-enough');
    const { promised, promisedExtras } = test.jade();
    expect([promised, promisedExtras]).toEqual([most, most * (each - 1)]);
  });

  it('offers the largest order that fits with its extras', () => {
    at('2027-03-10T09:00:00Z', { A1: 33, A2: 5 });
    const free = freeJade();
    const fault = faultOf(addSale(test.desk, test.by('wren'), { items: jade(40) }));
    if (fault.kind !== 'not-enough') throw new Error(fault.kind);
    expect(fault).toMatchObject({ free, ...test.largest() });
    expect(fault.fits + fault.fitsExtras).toBeLessThanOrEqual(free);
    expect(fault.mended).toBe(`${fault.fits} jade`);
    const taken1 = test.sell(fault.fits);
    expect(taken1.items).toMatchObject([{ number: fault.fits, extras: fault.fitsExtras }]);
    expect(faultOf(addSale(test.desk, test.by('wren'), { items: jade(fault.fits) })).kind).toBe('not-enough');
  });

  it('answers ten thousand animals at once, and none at all', () => {
    at('2027-03-10T09:00:00Z');
    const many = faultOf(addSale(test.desk, test.by('wren'), { items: jade(10_000) }));
    expect(many).toMatchObject({ kind: 'not-enough', asked: 10_000, free: freeJade() });
    const none = faultOf(addSale(test.desk, test.by('wren'), { items: jade(0) }));
    expect(none).toMatchObject({ kind: 'impossible-amount', amount: 'animals', typed: 0 });
    expect(openSales(test.desk)).toEqual([]);
  });

  it('does not let one line named twice be promised twice', () => {
    at('2027-03-10T09:00:00Z', { A1: 25, A2: 5 });
    const { fits } = test.largest();
    const half = Math.floor(fits / 2) + 1;
    expect(half).toBeLessThan(fits);
    const fault = faultOf(addSale(test.desk, test.by('wren'), { items: [...jade(half), ...jade(half)] }));
    expect(fault).toMatchObject({ kind: 'not-enough', asked: 2 * half });
    test.sell(half);
  });

  it('says that a line was never counted', () => {
    at('2027-03-10T09:00:00Z');
    taken(setLine(test.desk, test.by('wren'), { line: 'amber' }));
    taken(addTubs(test.desk, test.by('wren'), { names: ['C1'], line: 'amber', litres: 30 }));
    const items = [{ of: 'line' as const, name: 'amber', number: 5 }];
    expect(faultOf(addSale(test.desk, test.by('wren'), { items }))).toEqual({
      kind: 'not-counted',
      line: 'amber',
      tubs: ['C1'],
    });
  });

  it('reserves goods from their own stock', () => {
    at('2027-03-10T09:00:00Z');
    const moss = (number: number) => [{ of: 'goods' as const, name: 'Moss', number }];
    expect(taken(addSale(test.desk, test.by('wren'), { items: moss(3) })).sale.priceMinor).toBe(1200);
    expect(faultOf(addSale(test.desk, test.by('wren'), { items: moss(3) }))).toMatchObject({
      kind: 'not-enough-goods',
      free: 2,
      mended: '2 moss',
    });
  });

  it('writes an interaction that is delivered twice once', () => {
    at('2027-03-10T09:00:00Z');
    const by = test.by('wren');
    taken(addSale(test.desk, by, { items: jade(10) }));
    expect(() => addSale(test.desk, by, { items: jade(10) })).toThrow(/UNIQUE/);
    expect(openSales(test.desk)).toHaveLength(1);
    expect(freeJade()).toBe(test.freeUntouched() - 12);
  });
});

describe('price and time', () => {
  it('takes the price list, or says what has no price', () => {
    at('2027-03-10T09:00:00Z');
    expect(test.sell(10).priceMinor).toBe(2000);
    const snow = [{ of: 'line' as const, name: 'snow', number: 5 }];
    expect(taken(addSale(test.desk, test.by('wren'), { items: snow }))).toMatchObject({
      sale: { priceMinor: null },
      unpriced: ['snow'],
    });
    expect(test.sell(10, { priceMinor: 1500 }).priceMinor).toBe(1500);
  });

  it('keeps an unpaid sale for three days, but not past the morning of dispatch', () => {
    at('2027-03-10T09:00:00Z');
    expect(test.sell(5, { dispatchOn: day('2027-03-22') }).keptUntil).toBe('2027-03-13T09:01:00.000Z');
    // 07:30 in Amsterdam is 06:30 in winter time.
    expect(test.sell(5, { dispatchOn: day('2027-03-11') }).keptUntil).toBe('2027-03-11T06:30:00.000Z');
    expect(test.sell(5, { dispatchOn: day('2027-03-10') }).keptUntil).toBe('2027-03-10T23:00:00.000Z');
  });

  it('frees what it reserved when its time is over', () => {
    at('2027-03-10T09:00:00Z');
    const sale = test.sell(10);
    test.advance({ days: 3, minutes: -1 });
    expect(freeJade()).toBe(test.freeUntouched() - 12);
    test.advance({ minutes: 1 });
    expect(stateOf(test.desk, sale)).toBe('lapsed');
    expect(freeJade()).toBe(test.freeUntouched());
  });

  it('knows a buyer again, with where the last parcel went', () => {
    at('2027-03-10T09:00:00Z');
    const first = test.sell(5, { buyer: 'Kestrel', area: 'Leeuwarden', region: 'nl' });
    const second = test.sell(5, { buyer: ' kestrel ' });
    expect(second).toMatchObject({ buyer: 'Kestrel', buyerId: first.buyerId, area: 'Leeuwarden', region: 'NL' });
  });
});

describe('undo', () => {
  it('takes a sale back, and not while later entries rest on it', () => {
    at('2027-03-10T09:00:00Z');
    const { entryId, sale } = taken(addSale(test.desk, test.by('wren'), { items: jade(10) }));
    const edited = taken(editSale(test.desk, test.by('wren'), { sale: String(sale.id), priceMinor: 100 }));
    expect(faultOf(undo(test.desk, test.by('wren'), true, entryId)).kind).toBe('others-rest-on-it');
    taken(undo(test.desk, test.by('wren'), true, edited.entryId));
    expect(test.desk.store.sales.get(sale.id)?.priceMinor).toBe(2000);
    taken(undo(test.desk, test.by('wren'), true, entryId));
    expect(test.desk.store.sales.get(sale.id)).toBeUndefined();
    expect(freeJade()).toBe(test.freeUntouched());
  });
});

it('refuses an area that is no place name', () => {
  const shop = sellingDeskAt('2027-04-12T10:00:00Z');
  const before = rowCounts(shop.folder);
  const input = { items: [{ of: 'line' as const, name: 'jade', number: 5 }], area: 'far away '.repeat(20) };
  expect(faultOf(addSale(shop.desk, shop.by('wren'), input))).toMatchObject({ kind: 'bad-name', noun: 'area' });
  const forecast = { day: '2027-04-13' as LocalDay, area: input.area, lowC: 5, highC: 10 };
  expect(faultOf(logWeather(shop.desk, shop.by('wren'), forecast))).toMatchObject({ kind: 'bad-name', noun: 'area' });
  expect(rowCounts(shop.folder)).toEqual(before);
  shop.close();
});
