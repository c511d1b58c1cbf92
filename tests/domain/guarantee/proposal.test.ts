import { describe, expect, it } from 'vitest';
import {
  type Arrival,
  type ClaimQuestion,
  claimProposal,
  day,
  type Instant,
  plusMs,
  type SaleItem,
} from '../../../src/domain/index.ts';

const deliveredAt = '2027-03-16T12:00:00.000Z' as Instant;
const hourMs = 3_600_000;

const arrival: Arrival = {
  ...{ id: 1, entryId: 9, saleId: 41, at: deliveredAt, by: 'wren', loggedAt: deliveredAt },
  ...{ deliveredAt, dead: 5, photo: null },
};
const jade: SaleItem = { of: 'line', id: 1, name: 'jade', number: 20, extras: 3, priceMinor: 200 };
const moss: SaleItem = { of: 'goods', id: 1, name: 'moss', number: 2, extras: 0, priceMinor: 400 };

/** Twenty jade with three extras for 40.00, two moss for 8.00 and postage of 6.00; reported with a photo after an hour. */
const proposed = (more: Partial<ClaimQuestion> & { dead?: number; hours?: number; photo?: string | null } = {}) => {
  const { dead = 5, hours = 1, photo = 'p.jpg', ...question } = more;
  return claimProposal({
    sale: { items: [jade, moss], arrival, priceMinor: 4800, postageMinor: 600 },
    claim: { dead, at: plusMs(deliveredAt, hours * hourMs), photo },
    terms: { claimHours: 24, claimPhoto: true, postageOwed: false },
    canResend: () => true,
    resendOn: day('2027-03-17'),
    ...question,
  });
};

describe('what a claim comes to', () => {
  it('is a refund of the part that is short, extras first, goods and postage left out', () => {
    expect(proposed()).toMatchObject({ about: 2, refundMinor: 400, proposed: 'refund', outcome: { owed: 2 } });
    const terms = { claimHours: 24, claimPhoto: true, postageOwed: true };
    expect(proposed({ terms }).refundMinor).toBe(460);
  });

  it('leaves a discount with the goods and the animals alike', () => {
    const sale = { items: [jade, moss], arrival, priceMinor: 2400, postageMinor: 0 };
    expect(proposed({ sale }).refundMinor).toBe(200);
  });

  it('takes the animals at what the known goods leave of the price, where their own is not known', () => {
    const unpriced: SaleItem = { ...jade, priceMinor: null };
    const sale = { items: [unpriced, moss], arrival, priceMinor: 4800, postageMinor: 0 };
    expect(proposed({ sale })).toMatchObject({ refundMinor: 400, pricesKnown: false });
    expect(proposed().pricesKnown).toBe(true);
  });

  it('is a resend where more than half is short, if the animals and a day are there', () => {
    expect(proposed({ dead: 13 }).proposed).toBe('refund');
    expect(proposed({ dead: 14 }).proposed).toBe('resend');
    expect(proposed({ dead: 14, canResend: (animals) => animals <= 10 }).proposed).toBe('refund');
    expect(proposed({ dead: 14, resendOn: null }).proposed).toBe('refund');
  });

  it('is nothing where the promise was kept, with what the dead would cost all the same', () => {
    expect(proposed({ dead: 3 })).toMatchObject({ about: 3, refundMinor: 600, proposed: 'decline' });
  });

  it('is left to the partners outside the window, without the photo that is asked, or without a delivery', () => {
    expect(proposed({ hours: 24 })).toMatchObject({ inTime: true, proposed: 'refund' });
    expect(proposed({ hours: 24.01 })).toMatchObject({ inTime: false, proposed: null });
    expect(proposed({ photo: null })).toMatchObject({ photo: false, proposed: null });
    const sale = { items: [jade], arrival: null, priceMinor: 4000, postageMinor: 0 };
    expect(proposed({ sale })).toMatchObject({ inTime: null, endsAt: null, proposed: null });
  });

  it('has no refund without a price, and one of nothing where no animals were ordered', () => {
    const sale = { items: [jade], arrival, priceMinor: null, postageMinor: 0 };
    expect(proposed({ sale }).refundMinor).toBeNull();
    expect(proposed({ sale: { ...sale, items: [moss], priceMinor: 800 }, dead: 0 }).refundMinor).toBe(0);
  });
});
