import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  cancelSale,
  logArrival,
  logChange,
  logCost,
  moneyReport,
  moneyYear,
  openClaim,
  paySale,
  sendParcel,
  setBusiness,
  setLine,
  setOutlet,
  settleClaim,
  taxYearBegins,
  undo,
} from '../../../src/desk/index.ts';
import { day, monthOf } from '../../../src/domain/index.ts';
import { sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-08T09:00:00Z');
});
afterEach(() => test.close());

const pay = (sale: { readonly id: number }, amountMinor?: number) =>
  taken(paySale(test.desk, test.by('wren'), { sale: String(sale.id), amountMinor, again: true }));
const spend = (amountMinor: number, kind: 'feed' | 'packing' | 'tub', tub?: string) =>
  taken(logCost(test.desk, test.by('wren'), { amountMinor, what: kind, kind, tub }));
const march = () => moneyReport(test.desk, monthOf(day('2027-03-01')));

describe('a month', () => {
  it('adds up takings, fees, refunds and costs, by line and by what is no line’s', () => {
    taken(setOutlet(test.desk, test.by('wren'), { outlet: 'club', percent: 10 }));
    const items = [
      { of: 'line' as const, name: 'jade', number: 10 },
      { of: 'goods' as const, name: 'moss', number: 1 },
    ];
    const sale = test.sell(10, { items, outlet: 'club', postageMinor: 700 });
    pay(sale);
    spend(500, 'feed');
    spend(200, 'packing', 'A1');
    expect(march()).toMatchObject({
      isSoFar: true,
      totals: {
        ...{ takingsMinor: 3100, animalsMinor: 2000, goodsMinor: 400, postageMinor: 700 },
        ...{ feesMinor: 240, refundsMinor: 0, costsMinor: 700, netMinor: 2160 },
      },
      lines: [
        {
          name: 'jade',
          sold: 10,
          takingsMinor: 2000,
          feesMinor: 200,
          costsMinor: 200,
          netMinor: 1600,
          perTenMinor: 1600,
        },
      ],
      rest: [
        { of: 'goods', takingsMinor: 400, netMinor: 360 },
        { of: 'postage', takingsMinor: 700, netMinor: 700 },
        { of: 'shared', takingsMinor: 0, netMinor: -500 },
      ],
      ...{ sold: 10, perTenMinor: 2160, guessed: 0 },
    });
    // 3 tubs of 24 L net since the morning of the 8th of 8 days so far: 9 L on the average day.
    expect(march()).toMatchObject({ perLitreMinor: 240 });
  });

  it('counts what came in it, not what was sold in it, and nothing that was undone', () => {
    const sale = test.sell(10);
    pay(sale, 500);
    test.advance({ days: 30 });
    const { entryId } = pay(sale, 1500);
    expect(march()).toMatchObject({ totals: { takingsMinor: 500 }, sold: 0 });
    const april = () => moneyReport(test.desk, monthOf(day('2027-04-01')));
    expect(april()).toMatchObject({ totals: { takingsMinor: 1500 }, sold: 10 });
    taken(undo(test.desk, test.by('wren'), true, entryId));
    expect(april()).toMatchObject({ totals: { takingsMinor: 0 }, sold: 0 });
  });

  it('gives back what a cancelled sale brought', () => {
    const sale = test.sell(10);
    pay(sale);
    taken(cancelSale(test.desk, test.by('wren'), { sale: String(sale.id), reason: 'changed their mind' }));
    expect(march()).toMatchObject({ totals: { takingsMinor: 2000, refundsMinor: 2000, netMinor: 0 }, sold: 0 });
  });

  it('bears the refund of a claim in the line that it was for, and sells nothing by a resend', () => {
    const sold = [test.sell(10), test.sell(12)].map(({ id }) => String(id));
    for (const sale of sold) {
      taken(paySale(test.desk, test.by('wren'), { sale }));
      taken(sendParcel(test.desk, test.by('wren'), { sale, anyway: true }));
    }
    test.advance({ days: 1 });
    const [refunded = '', resent = ''] = sold;
    taken(logArrival(test.desk, test.by('wren'), { sale: refunded, dead: 4, photo: 'a.jpg' }));
    taken(logArrival(test.desk, test.by('wren'), { sale: resent, dead: 14, photo: 'b.jpg' }));
    taken(settleClaim(test.desk, test.by('wren'), { sale: refunded, how: 'refund', amountMinor: 400 }));
    taken(settleClaim(test.desk, test.by('wren'), { sale: resent, how: 'resend' }));
    expect(march()).toMatchObject({
      totals: { takingsMinor: 4400, refundsMinor: 400 },
      lines: [{ name: 'jade', sold: 22, netMinor: 4000 }],
    });
    expect(openClaim(test.desk, test.by('wren'), { sale: refunded, dead: 1 }).ok).toBe(false);
  });

  it('pays the fees that the place took when the sale was booked', () => {
    taken(setOutlet(test.desk, test.by('wren'), { outlet: 'club', percent: 10 }));
    const early = test.sell(5, { outlet: 'club' });
    test.advance({ minutes: 5 });
    taken(setOutlet(test.desk, test.by('wren'), { outlet: 'club', percent: 20 }));
    const late = test.sell(5, { outlet: 'club' });
    for (const sale of [early, late]) pay(sale);
    expect(march().totals.feesMinor).toBe(100 + 200);
  });

  it('goes by the hours of the chores that were done in it', () => {
    expect(march()).toMatchObject({ choreHours: 0, perHourMinor: null });
    pay(test.sell(10));
    taken(logChange(test.desk, test.by('wren'), { tub: 'A1', percent: 20 }));
    const minutes = test.desk.store.chores.chores().find(({ act }) => act === 'change')?.minutes ?? 0;
    expect(minutes).toBeGreaterThan(0);
    expect(march().choreHours).toBeCloseTo(minutes / 60, 9);
    expect(march().perHourMinor).toBe(Math.round((2000 * 60) / minutes));
  });

  it('of nothing is nothing', () => {
    const nothing = moneyReport(test.desk, monthOf(day('2026-05-01')));
    expect(nothing).toMatchObject({ isSoFar: false, totals: { netMinor: 0 }, lines: [], sold: 0, perTenMinor: null });
    expect(nothing.perLitreMinor).toBeNull();
  });
});

describe('the payback of one more tub', () => {
  it('is not told before three months of books', () => {
    pay(test.sell(10));
    expect(march().payback).toBeNull();
  });

  it('is of the line that gains most by it, once it is known what a tub cost', () => {
    taken(setLine(test.desk, test.by('wren'), { line: 'snow', priceMinor: 500 }));
    const snow = test.sell(1, { items: [{ of: 'line', name: 'snow', number: 20 }], dispatchOn: day('2027-03-09') });
    pay(snow);
    pay(test.sell(10));
    test.advance({ days: 120 });
    const july = () => moneyReport(test.desk, monthOf(day('2027-07-01'))).payback;
    // One tub of snow in 121 days; the months are those of the calendar's average.
    const netPerMonthMinor = Math.round((10_000 * 146_097) / 4800 / 121);
    expect(july()).toEqual({ line: 'snow', netPerMonthMinor, costMinor: null, months: null });
    const tub = spend(3000, 'tub', 'B1');
    expect(july()).toEqual({ line: 'snow', netPerMonthMinor, costMinor: 3000, months: 2 });
    taken(undo(test.desk, test.by('wren'), true, tub.entryId));
    spend(99_000, 'tub', 'A1');
    expect(july()?.months).toBe(40);
  });
});

describe('a year', () => {
  it('has its months from the first money up to today, which add up to it', () => {
    pay(test.sell(10));
    test.advance({ days: 60 });
    spend(700, 'feed');
    const { year, months } = moneyYear(test.desk, { first: day('2027-01-01'), last: day('2027-12-31') });
    expect(months.map(({ period, totals }) => [period.first, totals.netMinor])).toEqual([
      ['2027-03-01', 2000],
      ['2027-04-01', 0],
      ['2027-05-01', -700],
    ]);
    expect(year).toMatchObject({ isSoFar: true, totals: { netMinor: 1300 } });
  });

  it('begins by the region, not by the day on which it is asked', () => {
    expect(taxYearBegins(test.desk)).toBe('01-01');
    taken(setBusiness(test.desk, test.by('wren'), { region: 'GB-SCT' }));
    expect(taxYearBegins(test.desk)).toBe('04-06');
  });
});

it('reads sales of before items kept their price as a guess, and says of how many', () => {
  const items = [
    { of: 'line' as const, name: 'snow', number: 5 },
    { of: 'line' as const, name: 'jade', number: 5 },
  ];
  const sale = test.sell(5, { items, priceMinor: 3000 });
  pay(sale);
  expect(march()).toMatchObject({
    guessed: 1,
    lines: [
      { name: 'snow', takingsMinor: 2000 },
      { name: 'jade', takingsMinor: 1000 },
    ],
  });
  expect(moneyReport(test.desk, monthOf(day('2027-04-01'))).guessed).toBe(0);
});
