import fc from 'fast-check';
import {
  type Cost,
  costKinds,
  type Instant,
  instantOf,
  type MoneySale,
  type SaleItem,
} from '../../../src/domain/index.ts';

export const zone = 'Europe/Amsterdam';

/** Instants of two years, also in the hours in which the local day is another than in UTC. */
export const moment: fc.Arbitrary<Instant> = fc
  .date({ min: new Date('2026-01-01'), max: new Date('2027-12-31'), noInvalidDate: true })
  .map(instantOf);

const minor = fc.oneof(fc.nat(5000), fc.nat(10_000_000));

const item: fc.Arbitrary<SaleItem> = fc
  .record({
    of: fc.constantFrom('line' as const, 'goods' as const),
    id: fc.integer({ min: 1, max: 3 }),
    number: fc.integer({ min: 1, max: 200 }),
    priceMinor: fc.option(minor, { nil: null }),
  })
  .map((each) => ({ ...each, name: `${each.of} ${each.id}`, extras: 0 }));

const payments = fc
  .array(fc.record({ amountMinor: fc.oneof(fc.constant(0), minor), at: moment }), { maxLength: 4 })
  .map((each) => each.sort((a, b) => a.at.localeCompare(b.at)));

const fees = fc.record({
  percent: fc.oneof(
    fc.nat(100),
    fc.integer({ min: 0, max: 1_000_000 }).map((parts) => parts / 10_000),
  ),
  fixedMinor: fc.nat(500),
  onPostage: fc.boolean(),
});

/** Any sale, also in states that the bot does not let it come to. */
export const sale: fc.Arbitrary<MoneySale> = fc.record({
  id: fc.integer({ min: 1, max: 1000 }),
  items: fc.array(item, { maxLength: 5 }),
  priceMinor: fc.option(minor, { nil: null }),
  postageMinor: fc.oneof(fc.constant(0), fc.nat(3000)),
  fees: fc.option(fees, { nil: null }),
  payments,
  refund: fc.option(fc.record({ amountMinor: minor, at: moment }), { nil: null }),
  sentAt: fc.option(moment, { nil: null }),
  cancelledAt: fc.option(moment, { nil: null }),
});

export const cost: fc.Arbitrary<Cost> = fc
  .record({
    amountMinor: fc.integer({ min: 1, max: 10_000_000 }),
    kind: fc.constantFrom(...costKinds),
    at: moment,
    tub: fc.option(fc.integer({ min: 1, max: 3 }), { nil: null }),
  })
  .map(({ tub, ...each }) => ({
    ...{ id: 1, entryId: 1, by: 'wren', loggedAt: each.at, what: 'something' },
    ...each,
    tub: tub === null ? null : { id: tub, name: `A${tub}`, lineId: tub, lineName: `line ${tub}` },
  }));
