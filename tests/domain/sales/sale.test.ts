// Prices, how long an unpaid sale is kept, and what a sale is. Amsterdam's clocks go forward on 28 March 2027.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Arrival,
  day,
  type Instant,
  instantOf,
  isPaid,
  isPartPaid,
  keptUntil,
  openMinorOf,
  priceOf,
  saleState,
  type WallTime,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270303 });

const at = (iso: string): Instant => instantOf(new Date(iso));

describe('the price of an order', () => {
  const orange = { name: 'orange', number: 20, priceMinor: 170 };
  const moss = { name: 'moss', number: 2, priceMinor: 450 };

  it('is each times number', () => {
    expect(priceOf([orange, moss])).toEqual({ priceMinor: 4300, knownMinor: 4300, unpriced: [] });
    expect(priceOf([])).toEqual({ priceMinor: 0, knownMinor: 0, unpriced: [] });
  });

  it('is not known while an item has none, which is named once', () => {
    const green = { name: 'green', number: 5, priceMinor: null };
    const leaves = { name: 'leaves', number: 1, priceMinor: null };
    expect(priceOf([orange, green, green, leaves])).toEqual({
      priceMinor: null,
      knownMinor: 3400,
      unpriced: ['green', 'leaves'],
    });
  });
});

describe('how long an unpaid sale is kept', () => {
  const terms = {
    addedAt: at('2027-04-06T16:00:00Z'),
    keepDays: 3,
    dispatchOn: null,
    zone: 'Europe/Amsterdam',
    morningAt: '07:30' as WallTime,
  };

  it('is some days, to the same time of day', () => {
    expect(keptUntil(terms)).toBe('2027-04-09T16:00:00.000Z');
    expect(keptUntil({ ...terms, addedAt: at('2027-03-26T17:00:12.345Z') })).toBe('2027-03-29T16:00:12.345Z');
  });

  it('is not past the morning of its dispatch day', () => {
    expect(keptUntil({ ...terms, dispatchOn: day('2027-04-07') })).toBe('2027-04-07T05:30:00.000Z');
    expect(keptUntil({ ...terms, dispatchOn: day('2027-04-12') })).toBe('2027-04-09T16:00:00.000Z');
  });

  it('never ends before it was added', () => {
    expect(keptUntil({ ...terms, dispatchOn: day('2027-04-06') })).toBe(terms.addedAt);
    expect(keptUntil({ ...terms, keepDays: 0 })).toBe(terms.addedAt);
  });

  it('is the earlier of the two ends, whenever it was added', () => {
    const moments = fc.date({ min: new Date('2026-01-01'), max: new Date('2029-01-01'), noInvalidDate: true });
    fc.assert(
      fc.property(moments, fc.nat(10), fc.boolean(), (date, keepDays, dated) => {
        const addedAt = instantOf(date);
        const dispatchOn = dated ? day('2027-06-01') : null;
        const end = keptUntil({ ...terms, addedAt, keepDays, dispatchOn });
        expect(end >= addedAt).toBe(true);
        // Three days of 24 hours, give or take the hour of a clock change.
        expect(Date.parse(end) - date.getTime()).toBeLessThanOrEqual(keepDays * 86_400_000 + 3_600_000);
        if (dispatchOn !== null && end > addedAt) expect(end <= '2027-06-01T05:30:00.000Z').toBe(true);
      }),
    );
  });
});

describe('what a sale is', () => {
  const owed = { priceMinor: 4000, postageMinor: 700, paidMinor: 0 };
  const facts = {
    ...{ keptUntil: at('2027-04-09T16:00:00Z'), paidAt: null, sentAt: null, arrival: null, cancelled: null },
    ...owed,
  };
  const now = at('2027-04-08T16:00:00Z');
  const later = at('2027-04-13T08:00:00Z');
  const arrival: Arrival = {
    ...{ id: 1, entryId: 1, at: later, by: 'wren', loggedAt: later },
    ...{ saleId: 41, deliveredAt: later, dead: 0, photo: null },
  };

  it('is kept until its moment, then lapsed', () => {
    expect(saleState(facts, now)).toBe('kept');
    expect(saleState(facts, at('2027-04-09T15:59:59.999Z'))).toBe('kept');
    expect(saleState(facts, facts.keptUntil)).toBe('lapsed');
  });

  it('is paid, sent, arrived and cancelled by what was logged last in its course', () => {
    const paid = { ...facts, paidAt: now, paidMinor: 4700 };
    const sent = { ...paid, sentAt: later };
    expect(saleState(paid, later)).toBe('paid');
    expect(saleState(sent, later)).toBe('sent');
    expect(saleState({ ...facts, sentAt: later }, later)).toBe('sent');
    expect(saleState({ ...sent, arrival }, later)).toBe('arrived');
    expect(saleState({ ...paid, cancelled: { at: later, reason: 'changed mind' } }, later)).toBe('cancelled');
  });

  it('is paid once what came reaches its total; paid in part it is kept, however long', () => {
    const part = { ...facts, paidAt: now, paidMinor: 4699 };
    expect([saleState(part, now), saleState(part, later)]).toEqual(['kept', 'kept']);
    expect([isPaid(part), isPartPaid(part), openMinorOf(part)]).toEqual([false, true, 1]);
    for (const paidMinor of [4700, 5000]) expect(saleState({ ...part, paidMinor }, later)).toBe('paid');
    expect(saleState({ ...part, priceMinor: null, paidMinor: 1 }, later)).toBe('paid');
    expect(openMinorOf({ ...part, priceMinor: null })).toBeNull();
    expect([isPaid(facts), isPartPaid(facts)]).toEqual([false, false]);
  });
});
