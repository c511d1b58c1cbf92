import { describe, expect, it } from 'vitest';
import { feeMinor, type Instant, type MoneySale, type SaleItem, saleMoney } from '../../../src/domain/index.ts';

const zone = 'Europe/Amsterdam';
const at = (text: string): Instant => `${text}T12:00:00.000Z` as Instant;
const jade: SaleItem = { of: 'line', id: 1, name: 'jade', number: 20, extras: 2, priceMinor: 200 };
const snow: SaleItem = { of: 'line', id: 2, name: 'snow', number: 10, extras: 1, priceMinor: 300 };
const moss: SaleItem = { of: 'goods', id: 1, name: 'moss', number: 2, extras: 0, priceMinor: 400 };

const sold = (more: Partial<MoneySale> = {}) =>
  saleMoney(
    {
      ...{ id: 41, items: [jade, moss], priceMinor: 4800, postageMinor: 700, fees: null },
      ...{ payments: [{ amountMinor: 5500, at: at('2027-03-10') }], refund: null, sentAt: null, cancelledAt: null },
      ...more,
    },
    zone,
  );
/** "taken jade 4000 2027-03-10", one for each movement. */
const told = ({ movements }: ReturnType<typeof sold>): string[] =>
  movements.map(({ what, pot, minor, day }) => `${what} ${'name' in pot ? pot.name : pot.of} ${minor} ${day}`);

describe('the money of a sale', () => {
  it('is taken for its items and its postage on the day on which it came', () => {
    expect(told(sold())).toEqual([
      'taken jade 4000 2027-03-10',
      'taken moss 800 2027-03-10',
      'taken postage 700 2027-03-10',
    ]);
    const lateInTheEvening = { amountMinor: 5500, at: '2027-03-31T22:30:00.000Z' as Instant };
    expect(told(sold({ payments: [lateInTheEvening] }))[0]).toBe('taken jade 4000 2027-04-01');
  });

  it('comes in parts that add up to the parts of the whole', () => {
    const payments = [
      { amountMinor: 1000, at: at('2027-03-10') },
      { amountMinor: 4500, at: at('2027-04-02') },
    ];
    expect(told(sold({ payments }))).toEqual([
      'taken jade 727 2027-03-10',
      'taken moss 146 2027-03-10',
      'taken postage 127 2027-03-10',
      'taken jade 3273 2027-04-02',
      'taken moss 654 2027-04-02',
      'taken postage 573 2027-04-02',
    ]);
  });

  it('is what came where no price was set, and more than agreed is for the items', () => {
    expect(told(sold({ items: [jade], priceMinor: null }))).toEqual([
      'taken jade 4800 2027-03-10',
      'taken postage 700 2027-03-10',
    ]);
    const payments = [{ amountMinor: 6100, at: at('2027-03-10') }];
    expect(told(sold({ payments }))).toEqual([
      'taken jade 4500 2027-03-10',
      'taken moss 900 2027-03-10',
      'taken postage 700 2027-03-10',
    ]);
  });

  it('pays the fees of its selling place where they are charged', () => {
    const fees = { percent: 10, fixedMinor: 30, onPostage: false };
    expect(told(sold({ fees })).slice(3)).toEqual(['fee jade 425 2027-03-10', 'fee moss 85 2027-03-10']);
    expect(told(sold({ fees: { ...fees, onPostage: true } })).slice(3)).toEqual([
      'fee jade 422 2027-03-10',
      'fee moss 84 2027-03-10',
      'fee postage 74 2027-03-10',
    ]);
  });

  it('pays the fixed fee once, however many payments come', () => {
    const payments = [1, 2, 3].map((nth) => ({
      amountMinor: [1000, 2500, 2000][nth - 1] ?? 0,
      at: at(`2027-03-1${nth}`),
    }));
    const { movements } = sold({ fees: { percent: 3.3, fixedMinor: 30, onPostage: true }, payments });
    const fees = movements.filter(({ what }) => what === 'fee');
    expect(fees.reduce((sum, { minor }) => sum + minor, 0)).toBe(212);
  });

  it('goes back to the lines by what they brought when a claim is settled', () => {
    const refund = { amountMinor: 701, at: at('2027-03-15') };
    const { movements } = sold({ items: [jade, snow, moss], priceMinor: 7800, refund });
    const back = movements.filter(({ what }) => what === 'refund');
    expect(back.map(({ pot, minor }) => ['name' in pot && pot.name, minor])).toEqual([
      ['jade', 401],
      ['snow', 300],
    ]);
  });

  it('goes back as it came when the sale is cancelled, the fee too', () => {
    const fees = { percent: 10, fixedMinor: 0, onPostage: true };
    expect(told(sold({ fees, cancelledAt: at('2027-03-20') })).slice(6)).toEqual([
      'refund jade 4000 2027-03-20',
      'refund moss 800 2027-03-20',
      'refund postage 700 2027-03-20',
      'fee jade -400 2027-03-20',
      'fee moss -80 2027-03-20',
      'fee postage -70 2027-03-20',
    ]);
  });

  it('knows how far the parts of an older sale are a guess', () => {
    expect(sold().isKnown).toBe(true);
    expect(sold({ items: [jade, { ...moss, priceMinor: null }] }).isKnown).toBe(false);
  });
});

describe('the animals of a sale', () => {
  const numbers = (money: ReturnType<typeof sold>) => money.sold.map(({ name, number, day }) => [name, number, day]);

  it('are sold on the day on which it was paid in full, or sent without', () => {
    expect(numbers(sold())).toEqual([['jade', 20, '2027-03-10']]);
    const part = [{ amountMinor: 1000, at: at('2027-03-10') }];
    expect(numbers(sold({ payments: part }))).toEqual([]);
    expect(numbers(sold({ payments: part, sentAt: at('2027-03-12') }))).toEqual([['jade', 20, '2027-03-12']]);
    expect(numbers(sold({ payments: [...part, { amountMinor: 4500, at: at('2027-04-01') }] }))).toEqual([
      ['jade', 20, '2027-04-01'],
    ]);
  });

  it('are not where the sale was cancelled, and never where it costs nothing', () => {
    expect(numbers(sold({ cancelledAt: at('2027-03-20') }))).toEqual([
      ['jade', 20, '2027-03-10'],
      ['jade', -20, '2027-03-20'],
    ]);
    const resend = { priceMinor: 0, postageMinor: 0, payments: [{ amountMinor: 0, at: at('2027-03-10') }] };
    expect(sold({ ...resend, sentAt: at('2027-03-12') })).toMatchObject({ movements: [], sold: [] });
  });
});

describe('a fee', () => {
  it('is rounded to the nearest minor unit, a half up, in whole numbers', () => {
    const charged = (percent: number, itemsMinor: number) =>
      feeMinor({ percent, fixedMinor: 0, onPostage: false }, { itemsMinor, postageMinor: 0 });
    expect([charged(10, 5), charged(10, 4), charged(12.8, 1250), charged(2.9, 1000), charged(0.15, 1000)]).toEqual([
      1, 0, 160, 29, 2,
    ]);
    // 1.005 · 100 is under 100.5 as a binary fraction; the fee is not.
    expect(charged(1.005, 10_000)).toBe(101);
    expect(charged(100, 10_000_000_00)).toBe(10_000_000_00);
  });

  it('is nothing where nothing came', () => {
    expect(feeMinor({ percent: 10, fixedMinor: 30, onPostage: true }, { itemsMinor: 0, postageMinor: 0 })).toBe(0);
  });
});
