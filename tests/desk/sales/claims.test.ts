import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addSale,
  logArrival,
  openClaim,
  openClaims,
  packingList,
  paySale,
  resendOf,
  sendParcel,
  setBusiness,
  settleClaim,
  soldInWeek,
  stateOf,
  undo,
} from '../../../src/desk/index.ts';
import { day } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
let sale: string;
beforeEach(() => {
  test = sellingDeskAt('2027-03-14T09:00:00Z');
  const booked = test.sell(20, { dispatchOn: day('2027-03-15'), postageMinor: 600 });
  sale = String(booked.id);
  taken(paySale(test.desk, test.by('wren'), { sale }));
  test.advance({ days: 1 });
  taken(sendParcel(test.desk, test.by('wren'), { sale }));
  test.advance({ days: 1 });
});
afterEach(() => test.close());

const arrive = (more = {}) => logArrival(test.desk, test.by('alder'), { sale, ...more });
const settle = (how: 'refund' | 'resend' | 'decline', amountMinor?: number) =>
  settleClaim(test.desk, test.by('wren'), { sale, how, amountMinor });
const booked = () => test.desk.store.sales.get(Number(sale));

describe('an arrival', () => {
  it('within the extras keeps the promise', () => {
    const { proposal, claimOpened } = taken(arrive({ dead: 3, photo: 'p.jpg' }));
    expect(proposal).toMatchObject({
      sent: 23,
      ordered: 20,
      outcome: { alive: 20, owed: 0, promiseKept: true },
      proposed: 'decline',
    });
    expect(claimOpened).toBe(false);
    expect(openClaims(test.desk)).toEqual([]);
    expect(test.desk.store.parcels.arrivalRecord()).toEqual({ sent: 23, dead: 3, parcels: 1 });
  });

  it('with more dead than extras opens the claim in the same entry', () => {
    const arrived = taken(arrive({ dead: 5, photo: 'p.jpg' }));
    expect(arrived.claimOpened).toBe(true);
    expect(arrived.proposal).toMatchObject({
      outcome: { alive: 18, owed: 2 },
      about: 2,
      inTime: true,
      refundMinor: 400,
      proposed: 'refund',
    });
    expect(openClaims(test.desk).map(({ id }) => String(id))).toEqual([sale]);
    taken(undo(test.desk, test.by('alder'), true, arrived.entryId));
    expect(openClaims(test.desk)).toEqual([]);
    const after = booked();
    expect(after && stateOf(test.desk, after)).toBe('sent');
  });

  it('can only be logged once, after it was sent, with no more dead than were sent', () => {
    const early = test.desk.now();
    expect(faultOf(arrive({ dead: 24 }))).toMatchObject({ kind: 'impossible-amount', amount: 'dead', max: 23 });
    expect(faultOf(arrive({ deliveredAt: '2027-03-14T10:00:00.000Z' })).kind).toBe('arrived-before-sent');
    taken(arrive({ deliveredAt: early }));
    expect(faultOf(arrive({ dead: 1 }))).toMatchObject({ kind: 'sale-state', state: 'arrived', by: 'alder' });
  });
});

describe('a claim', () => {
  it('is outside the window after the hours of the terms, and then the partners’ choice', () => {
    taken(arrive({ photo: 'p.jpg' }));
    test.advance({ hours: 25 });
    const opened = taken(openClaim(test.desk, test.by('wren'), { sale, dead: 8 }));
    expect(opened.proposal).toMatchObject({ inTime: false, photo: true, proposed: null, outcome: { owed: 5 } });
  });

  it('waits for the photo that the terms ask for', () => {
    const arrived = taken(arrive({ dead: 5 }));
    expect(arrived.proposal).toMatchObject({ inTime: true, photoAsked: true, photo: false, proposed: null });
    taken(setBusiness(test.desk, test.by('wren'), { claimPhoto: false, postageOwed: true }));
    taken(undo(test.desk, test.by('alder'), true, arrived.entryId));
    expect(taken(arrive({ dead: 5 })).proposal).toMatchObject({ proposed: 'refund', refundMinor: 460 });
  });

  it('is opened once and answered once, with money or animals but never both', () => {
    taken(arrive({ dead: 5, photo: 'p.jpg' }));
    expect(faultOf(openClaim(test.desk, test.by('wren'), { sale, dead: 6 }))).toMatchObject({ kind: 'claim-open' });
    const refund = taken(settle('refund'));
    expect(refund).toMatchObject({ how: 'refund', amountMinor: 400, resend: null });
    for (const how of ['refund', 'resend', 'decline'] as const) {
      expect(faultOf(settle(how))).toMatchObject({ kind: 'claim-settled', how: 'refund', by: 'wren' });
    }
    expect(faultOf(openClaim(test.desk, test.by('wren'), { sale, dead: 6 }))).toMatchObject({ kind: 'claim-settled' });
    taken(undo(test.desk, test.by('wren'), true, refund.entryId));
    expect(openClaims(test.desk)).toHaveLength(1);
  });

  it('is resent as a new sale that costs nothing, on the next good day, and is undone with it', () => {
    const free = () => test.jade().free;
    taken(arrive({ dead: 15, photo: 'p.jpg' }));
    const before = free();
    const { resend, entryId } = taken(settle('resend'));
    expect(resend).toMatchObject({ priceMinor: 0, dispatchOn: '2027-03-17', items: [{ name: 'jade', number: 12 }] });
    expect(resend && stateOf(test.desk, resend)).toBe('paid');
    expect(free()).toBe(before - 12 - (resend?.items[0]?.extras ?? 0));
    expect(packingList(test.desk, day('2027-03-17')).parcels).toMatchObject([
      { sale: { id: resendOf(test.desk, Number(sale))?.id, priceMinor: 0 } },
    ]);
    expect(soldInWeek(test.desk).sales).toBe(1);
    taken(undo(test.desk, test.by('wren'), true, entryId));
    expect(free()).toBe(before);
    expect(openClaims(test.desk)).toHaveLength(1);
  });

  it('proposes to resend where more than half is short, and not what is not there', () => {
    const { proposal } = taken(arrive({ dead: 15, photo: 'p.jpg' }));
    expect(proposal).toMatchObject({ proposed: 'resend', canResend: true, resendOn: '2027-03-17' });
    // An arrival with so many dead raises the extras of every order from now on.
    const most = faultOf(addSale(test.desk, test.by('wren'), { items: [{ of: 'line', name: 'jade', number: 500 }] }));
    test.sell(most.kind === 'not-enough' ? most.fits : 0);
    const refused = faultOf(settle('resend'));
    expect(refused).toMatchObject({ kind: 'not-enough', mended: null });
    expect(openClaims(test.desk)).toHaveLength(1);
  });

  it('refunds no more than was paid', () => {
    taken(arrive({ dead: 20, photo: 'p.jpg' }));
    expect(faultOf(settle('refund', 4601))).toMatchObject({ kind: 'refund-too-large', paidMinor: 4600 });
  });

  it('can be opened before the delivery is logged', () => {
    const opened = taken(openClaim(test.desk, test.by('wren'), { sale, dead: 5, note: ' milky ' }));
    expect(opened).toMatchObject({ proposal: { endsAt: null, inTime: null }, sale: { claim: { note: 'milky' } } });
    expect(taken(arrive({ dead: 5 })).claimOpened).toBe(false);
    expect(openClaims(test.desk)).toHaveLength(1);
  });

  it('needs a parcel that left, and dead animals', () => {
    const kept = String(test.sell(2).id);
    expect(faultOf(openClaim(test.desk, test.by('wren'), { sale: kept, dead: 1 })).kind).toBe('sale-state');
    expect(faultOf(openClaim(test.desk, test.by('wren'), { sale, dead: 0 }))).toMatchObject({ min: 1, max: 23 });
    expect(faultOf(settle('decline'))).toEqual({ kind: 'no-claim', sale: Number(sale) });
  });
});
