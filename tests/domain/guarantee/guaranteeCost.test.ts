import { describe, expect, it } from 'vitest';
import { guaranteeCost, type SaleItem } from '../../../src/domain/index.ts';

const animals = (number: number, extras: number, priceMinor: number | null = 200): SaleItem => ({
  ...{ of: 'line', id: 1, name: 'jade', number, extras, priceMinor },
});
const moss: SaleItem = { of: 'goods', id: 1, name: 'moss', number: 2, extras: 0, priceMinor: 400 };

describe('what the guarantee cost', () => {
  it('adds refunds, animals sent again and all extras at the prices of their sales', () => {
    expect(
      guaranteeCost([
        { items: [animals(20, 3), moss], refundMinor: 600, resend: null },
        { items: [animals(10, 2)], refundMinor: 0, resend: { items: [animals(4, 1)] } },
      ]),
    ).toEqual({
      ...{ parcels: 2, refundsMinor: 600, resendsMinor: 800, extrasMinor: 1200, totalMinor: 2600 },
      ...{ perParcelMinor: 1300, unpriced: 0 },
    });
  });

  it('leaves animals without a price out of the sums and counts them', () => {
    expect(
      guaranteeCost([{ items: [animals(20, 3, null)], refundMinor: 0, resend: { items: [animals(4, 1, null)] } }]),
    ).toMatchObject({ totalMinor: 0, unpriced: 8 });
  });

  it('is nothing a parcel without parcels', () => {
    expect(guaranteeCost([])).toMatchObject({ totalMinor: 0, perParcelMinor: null });
  });
});
