import type { Business } from '../business.ts';
import type { Instant, LocalDay } from '../day.ts';
import { claimEndsAt } from '../dispatch/claimWindow.ts';
import { itemShares } from '../money/itemShares.ts';
import { animalsOf } from '../sales/animals.ts';
import type { Sale, Settlement } from '../sales/sale.ts';
import { type ArrivalOutcome, arrivalOutcome } from './outcome.ts';

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
  /** Whether the prices at which its items were sold are known; of sales from before they were kept the animals' part may be a guess. */
  readonly pricesKnown: boolean;
  /** Whether the stock has animals for a resend, and the day that they could leave. */
  readonly canResend: boolean;
  readonly resendOn: LocalDay | null;
  /** By the terms; null: outside the stated window, or without the photo they ask for, so it is the partners' choice. */
  readonly proposed: Settlement | null;
}

/** What a proposal follows from. */
export interface ClaimQuestion {
  readonly sale: Pick<Sale, 'items' | 'arrival' | 'priceMinor' | 'postageMinor'>;
  readonly claim: { readonly dead: number; readonly at: Instant; readonly photo: string | null };
  readonly terms: Pick<Business, 'claimHours' | 'claimPhoto' | 'postageOwed'>;
  /** Whether the stock can give so many of the order's animals again. */
  readonly canResend: (animals: number) => boolean;
  /** The day on which a resend could leave; null: none within a year. */
  readonly resendOn: LocalDay | null;
}

/**
 * What a claim comes to by the terms. Refund of a part, resend when more than half of the order is missing and the animals are there:
 * the postage of a resend costs more than a few animals (common practice, no source).
 */
export function claimProposal(question: ClaimQuestion): ClaimProposal {
  const { sale, claim, terms, resendOn } = question;
  const { ordered, sent } = animalsOf(sale);
  const outcome = arrivalOutcome({ ordered, sent, dead: Math.min(claim.dead, sent) });
  const about = outcome.owed > 0 ? outcome.owed : Math.min(claim.dead, ordered);
  const endsAt = sale.arrival === null ? null : claimEndsAt(sale.arrival.deliveredAt, terms.claimHours);
  const inTime = endsAt === null ? null : claim.at <= endsAt;
  const photo = claim.photo !== null || (sale.arrival?.photo ?? null) !== null;
  const canResend = question.canResend(about);
  const withinTerms = inTime === true && (photo || !terms.claimPhoto);
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
    photoAsked: terms.claimPhoto,
    photo,
    refundMinor: refundMinor(question, about, ordered),
    pricesKnown: itemShares(sale.priceMinor ?? 0, sale.items).isKnown,
    canResend,
    resendOn,
    proposed: outcome.promiseKept ? 'decline' : withinTerms ? better : null,
  };
}

/**
 * What the missing animals cost: their part of what the animals brought of the agreed price, and of the postage where the terms owe it.
 * Goods keep theirs, by the prices at which the items were sold. Minor units, rounded to the nearest; null: no price.
 */
function refundMinor({ sale, terms }: ClaimQuestion, missing: number, ordered: number): number | null {
  const { priceMinor, postageMinor, items } = sale;
  if (priceMinor === null) return null;
  if (ordered === 0) return 0;
  const { minor } = itemShares(priceMinor, items);
  const animalsMinor = items.reduce((sum, { of }, index) => (of === 'line' ? sum + (minor[index] ?? 0) : sum), 0);
  return Math.round(((animalsMinor + (terms.postageOwed ? postageMinor : 0)) * missing) / ordered);
}
