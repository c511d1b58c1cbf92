import {
  type By,
  type Claim,
  type ClaimProposal,
  fail,
  type Instant,
  ok,
  type Refusal,
  type Result,
  type Settlement,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { nextDayFor } from '../dispatch/judge.ts';
import { whenOf } from '../when.ts';
import { bookedSale } from './add.ts';
import { deadOf } from './arrivals.ts';
import { proposalFor, resendItems } from './claimsProposal.ts';
import { findSale, resendOf, stateOf, wrongState } from './find.ts';
import { notInStock } from './items.ts';
import { keptFrom } from './kept.ts';

export interface ClaimInput {
  readonly sale: string;
  readonly dead: number;
  readonly photo?: string | undefined;
  /** When the buyer reported it; default now. */
  readonly at?: Instant | undefined;
  readonly note?: string | undefined;
}

export interface ClaimOpened {
  readonly sale: BookedSale;
  readonly proposal: ClaimProposal;
  readonly entryId: number;
}

/** Whether a claim could be opened as it is, before its photo is fetched. */
export function claimPossible(
  desk: Desk,
  input: ClaimInput,
): Result<{ readonly sale: BookedSale; readonly at: Instant }, Refusal> {
  const found = findSale(desk, input.sale, ['sent', 'arrived']);
  if (!found.ok) return found;
  const sale = found.value;
  const state = stateOf(desk, sale);
  if (state !== 'sent' && state !== 'arrived') return wrongState(desk, sale, 'claimed for');
  if (sale.claim !== null) return fail(answeredOrOpen(sale, sale.claim));
  const dead = deadOf(sale, input.dead, 1);
  if (!dead.ok) return dead;
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  if (sale.sentAt !== null && at.value < sale.sentAt) {
    return fail({ kind: 'arrived-before-sent', sale: sale.id, sentAt: sale.sentAt, deliveredAt: at.value });
  }
  return ok({ sale, at: at.value });
}

function answeredOrOpen({ id }: BookedSale, { settled, dead, loggedAt, by }: Claim): Refusal {
  return settled === null
    ? { kind: 'claim-open', sale: id, dead, at: loggedAt, by }
    : { kind: 'claim-settled', sale: id, ...settled };
}

/** Opens a claim, and says how it stands against the terms. */
export function openClaim(desk: Desk, by: By, input: ClaimInput): Result<ClaimOpened, Refusal> {
  return desk.store.write(() => {
    const possible = claimPossible(desk, input);
    if (!possible.ok) return possible;
    const { sale: before, at } = possible.value;
    const claim = { dead: input.dead, at, photo: input.photo ?? null, note: input.note?.trim() || null };
    const entryId = log(desk, by, 'claim', `claim on sale ${before.id}, ${input.dead} dead`, (entry) => {
      desk.store.parcels.addClaim(entry, { ...claim, saleId: before.id });
    });
    const sale = bookedSale(desk, before.id);
    return ok({ sale, proposal: proposalFor(desk, sale, claim), entryId });
  });
}

/** The open claim of a sale as it stands against the terms. */
export function claimOn(desk: Desk, typed: string): Result<Omit<ClaimOpened, 'entryId'>, Refusal> {
  const found = findSale(desk, typed, ['sent', 'arrived']);
  if (!found.ok) return found;
  const { claim } = found.value;
  if (claim === null) return fail({ kind: 'no-claim', sale: found.value.id });
  return ok({ sale: found.value, proposal: proposalFor(desk, found.value, claim) });
}

export interface ClaimSettled {
  readonly sale: BookedSale;
  readonly how: Settlement;
  readonly amountMinor: number;
  /** The sale that resends; null unless it is one. */
  readonly resend: BookedSale | null;
  readonly entryId: number;
}

/**
 * Answers a claim, once: with money, with animals (a new sale that costs nothing, on the next good day, in the same entry), or not at
 * all. Never with both.
 */
export function settleClaim(
  desk: Desk,
  by: By,
  input: { readonly sale: string; readonly how: Settlement; readonly amountMinor?: number | undefined },
): Result<ClaimSettled, Refusal> {
  return desk.store.write(() => {
    const open = claimOn(desk, input.sale);
    if (!open.ok) return open;
    const { sale, proposal } = open.value;
    const { claim } = sale;
    if (claim === null || claim.settled !== null) {
      return fail(claim === null ? { kind: 'no-claim', sale: sale.id } : answeredOrOpen(sale, claim));
    }
    const amountMinor = input.how === 'refund' ? refundOf(sale, proposal, input.amountMinor) : ok(0);
    if (!amountMinor.ok) return amountMinor;
    const resend = input.how === 'resend' ? resendFor(desk, sale, proposal) : ok(null);
    if (!resend.ok) return resend;
    const entryId = log(desk, by, 'settlement', `claim on sale ${sale.id}: ${input.how}`, (entry, at) => {
      const resendSaleId = resend.value === null ? null : resend.value(entry, at);
      const settled = { how: input.how, amountMinor: amountMinor.value, resendSaleId, at };
      desk.store.parcels.addSettlement(entry, { claimId: claim.id, ...settled });
    });
    return ok({
      sale: bookedSale(desk, sale.id),
      how: input.how,
      amountMinor: amountMinor.value,
      resend: resendOf(desk, sale.id),
      entryId,
    });
  });
}

/** A refund is at most what was paid. */
function refundOf(sale: BookedSale, proposal: ClaimProposal, given: number | undefined): Result<number, Refusal> {
  const wanted = given ?? proposal.refundMinor;
  if (wanted === null) return fail({ kind: 'nothing-given', what: 'the amount: the sale has no price' });
  if (given === undefined) return ok(Math.min(wanted, sale.paidMinor));
  return given > sale.paidMinor
    ? fail({ kind: 'refund-too-large', sale: sale.id, amountMinor: given, paidMinor: sale.paidMinor })
    : ok(given);
}

type WriteResend = (entryId: number, at: Instant) => number;

/** Reads what is free for a resend; the sale is written inside the settlement's entry, so that undoing the one undoes both. */
function resendFor(desk: Desk, sale: BookedSale, proposal: ClaimProposal): Result<WriteResend, Refusal> {
  const items = resendItems(desk, sale, proposal.about).map(
    ({ lineId, free: _, ...item }) => ({ of: 'line', id: lineId, ...item }) as const,
  );
  const refused = notInStock(desk, businessOf(desk), items, null);
  if (refused?.kind === 'not-enough' || refused?.kind === 'not-enough-goods') {
    return fail({ ...refused, mended: null, sale: sale.id });
  }
  if (refused !== null) return fail(refused);
  const dispatchOn = nextDayFor(desk, sale);
  if (dispatchOn === null) return fail({ kind: 'no-good-day', sale: sale.id });
  return ok((entryId, at) => {
    const { buyerId, area, region } = sale;
    const free = { priceMinor: 0, postageMinor: 0, outletId: null, cancelled: null };
    const keptUntil = keptFrom(businessOf(desk), at, dispatchOn);
    const id = desk.store.sales.add(entryId, { buyerId, area, region, dispatchOn, keptUntil, items, ...free }, at);
    // Nothing is to be paid: it counts as paid, so that it is on the packing list.
    desk.store.sales.addPayment(entryId, { saleId: id, amountMinor: 0, at });
    return id;
  });
}
