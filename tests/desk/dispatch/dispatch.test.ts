import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  dispatchDaysAhead,
  editTub,
  judgeDay,
  logLoss,
  logWeather,
  packingList,
  paySale,
  sendParcel,
  setHold,
  stateOf,
  undo,
} from '../../../src/desk/index.ts';
import { day } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-14T09:00:00Z', { A1: 42, A2: 35 });
});
afterEach(() => test.close());

const monday = day('2027-03-15');
const saleable = (): number[] => test.jade().tubs.map((tub) => tub.saleable ?? 0);
/** What A1 and A2 likely have over the ten breeders that are held back in each. */
const spare = (): number[] => saleable().map((animals) => animals - 10);
const paid = (number: number, more = {}) => {
  const sale = test.sell(number, { dispatchOn: monday, ...more });
  taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id) }));
  return sale;
};
const send = (sale: number, more = {}) => sendParcel(test.desk, test.by('alder'), { sale: String(sale), ...more });

describe('the packing list', () => {
  it('takes each parcel from one tub where one has enough, and puts unpaid ones under it', () => {
    const first = paid(20);
    test.advance({ minutes: 1 });
    const second = paid(10);
    const unpaid = test.sell(5, { dispatchOn: monday });
    const list = packingList(test.desk, monday);
    expect(list.parcels.map(({ sale, catches }) => [sale.id, catches])).toEqual([
      [first.id, [{ tub: 'A1', rack: 'A', line: 'jade', number: 23 }]],
      [second.id, [{ tub: 'A2', rack: 'A', line: 'jade', number: 12 }]],
    ]);
    expect(list.catches).toEqual([
      { tub: 'A1', rack: 'A', line: 'jade', number: 23, sales: [first.id] },
      { tub: 'A2', rack: 'A', line: 'jade', number: 12, sales: [second.id] },
    ]);
    expect(list.unpaid.map(({ id }) => id)).toEqual([unpaid.id]);
  });

  it('nets the more crowded tub where either would do, by the water in it', () => {
    paid(10);
    taken(editTub(test.desk, test.by('wren'), { tub: 'A2', netLitres: 8 }));
    expect(packingList(test.desk, monday).catches.map(({ tub }) => tub)).toEqual(['A2']);
    taken(editTub(test.desk, test.by('wren'), { tub: 'A2', netLitres: 30 }));
    expect(packingList(test.desk, monday).catches.map(({ tub }) => tub)).toEqual(['A1']);
  });

  it('stays the same for the parcels left while others go, in whatever order', () => {
    const parcels = [paid(12), paid(9), paid(5)];
    const planned = new Map(packingList(test.desk, monday).parcels.map(({ sale, catches }) => [sale.id, catches]));
    test.advance({ days: 1 });
    for (const { id } of [...parcels].reverse()) {
      expect(taken(send(id)).catches).toEqual(planned.get(id));
      test.advance({ minutes: 5 });
    }
    expect(packingList(test.desk, monday)).toMatchObject({
      parcels: [],
      catches: [],
      sent: parcels.map(({ id }) => ({ id })),
    });
  });

  it('keeps breeders and tubs off sale out, and says what is short', () => {
    const sale = paid(20);
    taken(setHold(test.desk, test.by('wren'), { tub: 'A1', reason: 'medicine', until: null }));
    taken(logLoss(test.desk, test.by('wren'), { tub: 'A2', number: 5 }));
    const [, inA2 = 0] = spare();
    expect(inA2).toBeLessThan(23);
    expect(packingList(test.desk, monday).parcels[0]).toMatchObject({
      sale: { id: sale.id },
      catches: [],
      short: [{ what: 'jade', asked: 23, there: inA2 }],
    });
  });

  it('holds parcels left over from an earlier day on today’s list', () => {
    const sale = paid(5);
    test.advance({ days: 2 });
    expect(packingList(test.desk, day('2027-03-16')).parcels).toMatchObject([{ sale: { id: sale.id }, overdue: true }]);
  });
});

describe('a parcel sent', () => {
  beforeEach(() => {
    test.advance({ days: 1 });
  });

  it('takes the animals out of the tubs and the goods off the shelf', () => {
    const items = [
      { of: 'line' as const, name: 'jade', number: 20 },
      { of: 'goods' as const, name: 'moss', number: 4 },
    ];
    const before = test.jade();
    const [inA1 = 0, inA2 = 0] = saleable();
    const sale = paid(1, { items });
    expect(test.jade()).toMatchObject({ promised: 20, promisedExtras: 3, free: before.free - 23 });
    const sent = taken(send(sale.id, { tracking: ' AB 12 ' }));
    expect(sent).toMatchObject({
      tracking: 'AB 12',
      catches: [{ tub: 'A1', number: 23 }],
      goods: [{ name: 'moss', number: 4, left: 1, keepAtLeast: 2 }],
      missing: 0,
    });
    expect(saleable()).toEqual([inA1 - 23, inA2]);
    expect(test.jade()).toMatchObject({ promised: 0, promisedExtras: 0, free: before.free - 23 });
    taken(undo(test.desk, test.by('alder'), true, sent.entryId));
    expect(test.jade()).toMatchObject({ promised: 20, promisedExtras: 3, free: before.free - 23 });
    expect(test.jade().tubs).toEqual(before.tubs);
    expect(test.desk.store.goods.goods()[0]?.stock).toBe(5);
    expect(stateOf(test.desk, sale)).toBe('kept');
  });

  it('twice is asked about, and takes nothing until it is said to be a second parcel', () => {
    const sale = paid(5);
    taken(send(sale.id));
    const after = saleable();
    expect(faultOf(send(sale.id))).toMatchObject({ kind: 'ask-sent-already', by: 'alder', tracking: null });
    expect(saleable()).toEqual(after);
    taken(send(sale.id, { again: 'parcel' }));
    expect(test.desk.store.parcels.parcels(sale.id)).toHaveLength(2);
    expect(saleable()).not.toEqual(after);
  });

  it('can get its tracking number later; another number is asked about', () => {
    const sale = paid(5);
    taken(send(sale.id));
    const after = saleable();
    const tracked = taken(send(sale.id, { tracking: 'AB1' }));
    expect(tracked).toMatchObject({ trackingOnly: true, tracking: 'AB1', catches: [] });
    expect(faultOf(send(sale.id, { tracking: 'CD2' }))).toMatchObject({
      kind: 'ask-sent-already',
      tracking: 'AB1',
      newTracking: 'CD2',
    });
    taken(send(sale.id, { tracking: 'CD2', again: 'tracking' }));
    expect(test.desk.store.sales.get(sale.id)?.tracking).toBe('CD2');
    expect(saleable()).toEqual(after);
    taken(undo(test.desk, test.by('alder'), true, tracked.entryId));
    expect(test.desk.store.sales.get(sale.id)?.tracking).toBe('CD2');
  });

  it('unpaid is asked about', () => {
    const sale = test.sell(5, { dispatchOn: monday });
    expect(faultOf(send(sale.id))).toEqual({ kind: 'ask-unpaid', sale: sale.id, priceMinor: 1000 });
    expect(taken(send(sale.id, { unpaid: true })).sale.sentAt).toBe(test.desk.now());
  });

  it('on a day that is not safe is asked about, with the next good day', () => {
    const sale = paid(5);
    taken(logWeather(test.desk, test.by('wren'), { day: day('2027-03-16'), area: 'home', lowC: 1, highC: 9 }));
    expect(faultOf(send(sale.id))).toMatchObject({
      kind: 'ask-not-safe',
      day: '2027-03-15',
      reasons: [{ kind: 'too-cold', lowC: 1, minTempC: 5 }, { kind: 'forecast-gaps' }],
      next: '2027-03-17',
    });
    expect(stateOf(test.desk, sale)).toBe('kept');
    expect(taken(send(sale.id, { anyway: true })).catches).toHaveLength(1);
  });

  it('that the books cannot give is asked about, then taken from where there are any', () => {
    const sale = paid(30);
    taken(logLoss(test.desk, test.by('wren'), { tub: 'A1', number: 30 }));
    const there = spare().reduce((sum, animals) => sum + animals, 0);
    expect(there).toBeLessThan(33);
    const fault = faultOf(send(sale.id));
    expect(fault).toMatchObject({ kind: 'ask-short', short: [{ what: 'jade', there }] });
    const sent = taken(send(sale.id, { short: true }));
    const caught = sent.catches.reduce((sum, { number }) => sum + number, 0);
    expect(caught).toBe(33);
    expect(sent.missing).toBe(0);
  });

  it('with a moment that has been is judged by that day', () => {
    const sale = paid(5);
    const at = test.desk.now();
    test.advance({ days: 4 });
    expect(taken(send(sale.id, { at })).at).toBe(at);
  });
});

describe('a forecast', () => {
  it('is asked for within two days, and settles the day either way', () => {
    expect(judgeDay(test.desk, monday, { area: null, region: null })).toMatchObject({ verdict: 'ask', good: true });
    taken(logWeather(test.desk, test.by('wren'), { day: monday, area: 'Home', lowC: 6, highC: 15 }));
    const tuesday = day('2027-03-16');
    expect(judgeDay(test.desk, monday, { area: null, region: null })).toMatchObject({
      ...{ verdict: 'ask', good: true },
      reasons: [{ kind: 'forecast-gaps', missing: [{ area: null, day: tuesday }] }],
    });
    taken(logWeather(test.desk, test.by('wren'), { day: tuesday, area: 'Delft', lowC: 7, highC: 14 }));
    expect(judgeDay(test.desk, monday, { area: 'delft', region: null })).toMatchObject({
      verdict: 'may go',
      reasons: [],
    });
    taken(logWeather(test.desk, test.by('wren'), { day: tuesday, area: 'Lisbon', lowC: 20, highC: 31 }));
    expect(judgeDay(test.desk, monday, { area: 'lisbon', region: null }).verdict).toBe('no');
    expect(judgeDay(test.desk, monday, { area: 'delft', region: null }).verdict).toBe('may go');
  });

  it('tells of the parcel that it is for, and what to look at next', () => {
    const log = (on: string, area: string) =>
      taken(logWeather(test.desk, test.by('wren'), { day: day(on), area, lowC: 8, highC: 15 }));
    const near = test.sell(5, { dispatchOn: monday, area: 'Delft' });
    const far = test.sell(5, { dispatchOn: monday, area: 'Breda' });
    expect(log('2027-03-15', 'here')).toMatchObject({
      ...{ weather: { area: 'home' }, sale: near.id, judged: { verdict: 'ask' } },
      next: { area: 'Delft', day: '2027-03-16' },
    });
    expect(log('2027-03-16', 'delft')).toMatchObject({
      ...{ sale: near.id, judged: { verdict: 'may go' } },
      next: { area: 'Breda', day: '2027-03-16' },
    });
    expect(log('2027-03-16', 'Breda')).toMatchObject({ sale: far.id, judged: { verdict: 'may go' }, next: null });
    expect(log('2027-03-20', 'Breda')).toMatchObject({ sale: null, next: null });
  });

  it('must be possible, for a day to come', () => {
    const log = (more: object) =>
      logWeather(test.desk, test.by('wren'), { day: monday, area: 'home', lowC: 5, highC: 9, ...more });
    expect(faultOf(log({ lowC: 10 }))).toMatchObject({ kind: 'impossible-amount', amount: 'low', max: 9 });
    expect(faultOf(log({ highC: 72 }))).toMatchObject({ kind: 'impossible-amount', amount: 'high', typed: 72 });
    expect(faultOf(log({ day: day('2027-03-13') })).kind).toBe('past-day');
  });
});

it('names the dispatch days ahead', () => {
  expect(dispatchDaysAhead(test.desk, 14).map((judged) => judged.day)).toEqual([
    '2027-03-15',
    '2027-03-16',
    '2027-03-17',
    '2027-03-22',
    '2027-03-23',
    '2027-03-24',
  ]);
});

it('asks before a border and over water', () => {
  const kinds = (region: string | null, area: string | null) =>
    judgeDay(test.desk, day('2027-04-20'), { region, area }).reasons.map(({ kind }) => kind);
  expect(kinds('BE', null)).toContain('abroad');
  expect(kinds(null, 'Isle of Texel')).toContain('island');
  expect(kinds('NL', 'Leeuwarden')).toEqual(['forecast-not-looked-at']);
});

it('asks before a parcel leaves that is paid in part only', () => {
  const shop = sellingDeskAt('2027-04-12T08:00:00Z');
  const sale = shop.sell(10, { dispatchOn: day('2027-04-12'), priceMinor: 5000 });
  taken(paySale(shop.desk, shop.by('wren'), { sale: String(sale.id), amountMinor: 1000 }));
  const asked = faultOf(sendParcel(shop.desk, shop.by('wren'), { sale: String(sale.id) }));
  expect(asked).toEqual({ kind: 'ask-unpaid', sale: sale.id, priceMinor: 4000 });
  shop.close();
});
