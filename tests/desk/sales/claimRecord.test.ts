import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  type ClaimRecord,
  claimRecord,
  logArrival,
  logWeather,
  openClaim,
  paySale,
  sendParcel,
  settleClaim,
  undo,
} from '../../../src/desk/index.ts';
import { day } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-15T09:00:00Z', { A1: 200, A2: 90 });
});
afterEach(() => test.close());

/** Sells, sends and, unless nobody says, logs the arrival of jade the day after; the sale's number. */
function parcel(number: number, dead: number | null, more: Parameters<typeof test.sell>[1] = {}): string {
  const sale = String(test.sell(number, { dispatchOn: day(test.desk.now().slice(0, 10)), ...more }).id);
  taken(paySale(test.desk, test.by('wren'), { sale }));
  taken(sendParcel(test.desk, test.by('wren'), { sale, anyway: true }));
  test.advance({ days: 1 });
  if (dead !== null) taken(logArrival(test.desk, test.by('wren'), { sale, dead, photo: 'p.jpg' }));
  return sale;
}
const record = (months = 12): ClaimRecord => taken(claimRecord(test.desk, months));

describe('the claim record', () => {
  it('tells how parcels arrived, by the names of lines and tubs', () => {
    parcel(10, 1);
    parcel(20, null);
    const found = record();
    expect(found).toMatchObject({ all: { sent: 12, alive: 11, parcels: 1 }, unheard: 1, from: '2026-03-17' });
    expect(found.byLine.map(({ name, sent }) => [name, sent])).toEqual([['jade', 12]]);
    expect(found.byTub.map(({ name }) => name)).toEqual(['A1']);
    expect(found.byTransitDays.map(({ key }) => key)).toEqual([1]);
    expect(found.byAir.map(({ key }) => key)).toEqual(['unknown']);
  });

  it('goes by the forecasts of the days on which the parcel was on its way', () => {
    for (const [on, lowC] of [
      ['2027-03-15', 9],
      ['2027-03-16', 6],
      ['2027-03-17', 1],
    ] as const) {
      taken(logWeather(test.desk, test.by('wren'), { day: day(on), area: 'home', lowC, highC: 15 }));
    }
    parcel(10, 0);
    expect(record().byAir.map(({ key }) => key)).toEqual(['cold']);
  });

  it('counts a parcel back by what its buyer claimed, also where no arrival was logged', () => {
    const sale = parcel(10, null);
    taken(openClaim(test.desk, test.by('wren'), { sale, dead: 4 }));
    expect(record()).toMatchObject({ all: { sent: 12, alive: 8 }, unheard: 0 });
    expect(record().byTransitDays.map(({ key }) => key)).toEqual([null]);
  });

  it('adds refunds and resends to the cost of the parcels they make good', () => {
    const refunded = parcel(10, 5);
    taken(settleClaim(test.desk, test.by('wren'), { sale: refunded, how: 'refund' }));
    const again = parcel(10, 8);
    taken(settleClaim(test.desk, test.by('wren'), { sale: again, how: 'resend' }));
    const { cost } = record();
    const sales = test.desk.store.sales.all();
    const extras = sales.reduce((sum, { items }) => sum + (items[0]?.extras ?? 0), 0);
    const resent = sales.at(-1);
    // The second order went with three extras, as the first had shown losses: five of its ten are short.
    expect(sales.map(({ items }) => items[0]?.number)).toEqual([10, 10, 5]);
    expect(cost).toMatchObject({ parcels: 2, refundsMinor: 600, resendsMinor: 1000, extrasMinor: extras * 200 });

    taken(sendParcel(test.desk, test.by('wren'), { sale: String(resent?.id), anyway: true }));
    expect(record().cost).toEqual(cost);
  });

  it('looks back as far as asked, and no longer at what was undone', () => {
    parcel(10, 3);
    test.advance({ days: 40 });
    parcel(10, 0);
    expect([record().all.alive, record(1).all.alive]).toEqual([9 + 13, 13]);
    const entry = test.desk.store.entries.latest(1)[0]?.id ?? 0;
    taken(undo(test.desk, test.by('wren'), true, entry));
    expect(record(1)).toMatchObject({ all: { sent: 0 }, unheard: 1 });
  });

  it('refuses months that cannot be', () => {
    for (const months of [0, 1.5, 400]) {
      expect(faultOf(claimRecord(test.desk, months))).toMatchObject({ kind: 'impossible-amount', amount: 'months' });
    }
  });
});
