import {
  type ArrivalOutcome,
  arrivalOutcome,
  claimEndsAt,
  type Instant,
  type LocalDay,
  type Settlement,
} from '../domain/index.ts';
import type { BookedSale } from '../store/sales.ts';
import { businessOf, type Desk } from './desk.ts';
import { nextDayFor } from './dispatchJudge.ts';
import { extrasNow } from './salesItems.ts';
import { stockOf } from './stock.ts';

/** Animals that a sale promised, and those that were sent with the extras. */
export function animalsOf({ items }: BookedSale): { readonly ordered: number; readonly sent: number } {
  const animals = items.filter(({ of }) => of === 'line');
  const ordered = animals.reduce((sum, { number }) => sum + number, 0);
  return { ordered, sent: animals.reduce((sum, { extras }) => sum + extras, ordered) };
}

/** How a parcel stands against the terms, and what could be done about it. */
export interface ClaimProposal {
  readonly dead: number;
  readonly ordered: number;
  readonly sent: number;
  readonly outcome: ArrivalOutcome;
  /** Animals that a settlement is about: those owed, or all the dead where nothing is owed by the terms. */
  readonly about: number;
  readonly reportedAt: Instant;
  /** When the carrier delivered; null: not logged. */
  readonly deliveredAt: Instant | null;
  /** Up to when the terms ask for a report; null: the delivery is not logged. */
  readonly endsAt: Instant | null;
  readonly inTime: boolean | null;
  readonly photoAsked: boolean;
  readonly photo: boolean;
  /** Minor units; null: the sale has no price. */
  readonly refundMinor: number | null;
  /** Whether the stock has animals for a resend, and the day that they could leave. */
  readonly canResend: boolean;
  readonly resendOn: LocalDay | null;
  /** By the terms; null: outside the stated window, or without the photo they ask for, so it is the partners' choice. */
  readonly proposed: Settlement | null;
}

/**
 * What a claim over `dead` animals comes to. Refund of a part, resend when more than half of the order is missing and the animals are
 * there: the postage of a resend costs more than a few animals (common practice, no source).
 */
export function proposalFor(
  desk: Desk,
  sale: BookedSale,
  claim: { readonly dead: number; readonly at: Instant; readonly photo: string | null },
): ClaimProposal {
  const business = businessOf(desk);
  const { ordered, sent } = animalsOf(sale);
  const outcome = arrivalOutcome({ ordered, sent, dead: Math.min(claim.dead, sent) });
  const about = outcome.owed > 0 ? outcome.owed : Math.min(claim.dead, ordered);
  const endsAt = sale.arrival === null ? null : claimEndsAt(sale.arrival.deliveredAt, business.claimHours);
  const inTime = endsAt === null ? null : claim.at <= endsAt;
  const photo = claim.photo !== null || (sale.arrival?.photo ?? null) !== null;
  const photoAsked = business.claimPhoto;
  const canResend = resendItems(desk, sale, about).every(({ free, number, extras }) => free >= number + extras);
  const resendOn = nextDayFor(desk, sale);
  const withinTerms = inTime === true && (photo || !photoAsked);
  const better = outcome.owed * 2 > ordered && canResend && resendOn !== null ? 'resend' : 'refund';
  return {
    dead: claim.dead,
    ordered,
    sent,
    outcome,
    about,
    reportedAt: claim.at,
    deliveredAt: sale.arrival?.deliveredAt ?? null,
    endsAt,
    inTime,
    photoAsked,
    photo,
    refundMinor: refundMinorFor(desk, sale, about, ordered, business.postageOwed),
    canResend,
    resendOn,
    proposed: outcome.promiseKept ? 'decline' : withinTerms ? better : null,
  };
}

/**
 * What the missing animals cost: their part of the price that was agreed, goods at their list price left out, and of the postage where
 * the terms owe it. Minor units, rounded to the nearest; null: no price.
 */
function refundMinorFor(
  desk: Desk,
  sale: BookedSale,
  missing: number,
  ordered: number,
  postageOwed: boolean,
): number | null {
  if (sale.priceMinor === null) return null;
  if (ordered === 0) return 0;
  const prices = new Map(desk.store.goods.goods().map(({ id, priceMinor }) => [id, priceMinor ?? 0]));
  const goodsMinor = sale.items.reduce(
    (sum, item) => (item.of === 'goods' ? sum + item.number * (prices.get(item.id) ?? 0) : sum),
    0,
  );
  const animalsMinor = Math.max(0, sale.priceMinor - goodsMinor) + (postageOwed ? sale.postageMinor : 0);
  return Math.round((animalsMinor * missing) / ordered);
}

export interface ResendItem {
  readonly lineId: number;
  readonly name: string;
  readonly number: number;
  readonly extras: number;
  /** Free to promise now. */
  readonly free: number;
}

/** The missing animals by line, in proportion to the order where it had several lines, as nobody sorts the dead by line. */
export function resendItems(desk: Desk, sale: BookedSale, missing: number): ResendItem[] {
  const business = businessOf(desk);
  const { ordered } = animalsOf(sale);
  let left = Math.min(missing, ordered);
  let leftOrdered = ordered;
  return sale.items.flatMap((item) => {
    const line = item.of === 'line' ? desk.store.tubs.lines().find(({ id }) => id === item.id) : undefined;
    if (line === undefined) return [];
    const number = Math.round((left * item.number) / leftOrdered);
    left -= number;
    leftOrdered -= item.number;
    if (number === 0) return [];
    const extras = extrasNow(desk, business, number);
    return [{ lineId: line.id, name: line.name, number, extras, free: stockOf(desk, line).free }];
  });
}
