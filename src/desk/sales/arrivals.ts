import {
  amount,
  animalsOf,
  type By,
  type ClaimProposal,
  fail,
  type Instant,
  ok,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, log } from '../desk.ts';
import { whenOf } from '../when.ts';
import { bookedSale } from './add.ts';
import { proposalFor } from './claimsProposal.ts';
import { findSale, stateOf, wrongState } from './find.ts';

export interface ArrivalInput {
  readonly sale: string;
  /** Animals found dead; default none. */
  readonly dead?: number | undefined;
  /** When the carrier delivered; default now. */
  readonly deliveredAt?: Instant | undefined;
  /** File name of a kept photo. */
  readonly photo?: string | undefined;
}

export interface ArrivalLogged {
  readonly sale: BookedSale;
  readonly proposal: ClaimProposal;
  /** More died than there were extras, so a claim is open. */
  readonly claimOpened: boolean;
  readonly entryId: number;
}

/** Whether an arrival could be logged as it is, before its photo is fetched. */
export function arrivalPossible(
  desk: Desk,
  input: ArrivalInput,
): Result<{ readonly sale: BookedSale; readonly dead: number; readonly deliveredAt: Instant }, Refusal> {
  const found = findSale(desk, input.sale, ['sent']);
  if (!found.ok) return found;
  const sale = found.value;
  if (stateOf(desk, sale) !== 'sent' || sale.sentAt === null) return wrongState(desk, sale, 'arrived');
  const dead = deadOf(sale, input.dead ?? 0);
  if (!dead.ok) return dead;
  const deliveredAt = whenOf(desk, input.deliveredAt);
  if (!deliveredAt.ok) return deliveredAt;
  if (deliveredAt.value < sale.sentAt) {
    return fail({
      kind: 'arrived-before-sent',
      sale: sale.id,
      sentAt: sale.sentAt,
      deliveredAt: deliveredAt.value,
    });
  }
  return ok({ sale, dead: dead.value, deliveredAt: deliveredAt.value });
}

/** Animals found dead: whole, and no more than were sent. */
export function deadOf(sale: BookedSale, typed: number, least = 0): Result<number, Refusal> {
  const dead = amount('dead', typed);
  if (!dead.ok) return dead;
  const { sent } = animalsOf(sale);
  if (typed >= least && typed <= sent) return dead;
  return fail({ kind: 'impossible-amount', amount: 'dead', typed, min: least, max: sent, whole: true });
}

/** Logs how a parcel arrived. More dead than extras opens the claim in the same entry. */
export function logArrival(desk: Desk, by: By, input: ArrivalInput): Result<ArrivalLogged, Refusal> {
  return desk.store.write(() => {
    const possible = arrivalPossible(desk, input);
    if (!possible.ok) return possible;
    const { sale: before, dead, deliveredAt } = possible.value;
    const photo = input.photo ?? null;
    const { ordered, sent } = animalsOf(before);
    const claimOpened = sent - dead < ordered && before.claim === null;
    const summary = `parcel ${before.id} arrived, ${dead} dead`;
    const entryId = log(desk, by, 'arrival', summary, (entry, now) => {
      desk.store.parcels.addArrival(entry, { saleId: before.id, deliveredAt, dead, photo });
      if (claimOpened) desk.store.parcels.addClaim(entry, { saleId: before.id, at: now, dead, photo, note: null });
    });
    const sale = bookedSale(desk, before.id);
    return ok({ sale, proposal: proposalFor(desk, sale, { dead, at: desk.now(), photo }), claimOpened, entryId });
  });
}
