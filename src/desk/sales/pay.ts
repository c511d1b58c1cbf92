import { type By, fail, type Instant, ok, openMinorOf, type Refusal, type Result } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { whenOf } from '../when.ts';
import { bookedSale } from './add.ts';
import { findSale, stateOf, wrongState } from './find.ts';
import { notInStock } from './items.ts';

export interface PaymentInput {
  readonly sale: string;
  /** Minor units; by default what is still open. */
  readonly amountMinor?: number | undefined;
  readonly at?: Instant | undefined;
  /** The asker said that it is a second payment. */
  readonly again?: boolean | undefined;
}

export interface PaymentLogged {
  readonly sale: BookedSale;
  readonly amountMinor: number;
  /** What was open before, price and postage less earlier payments; null: no price is known. */
  readonly openMinor: number | null;
  /** The sale had lapsed, and its items were still free. */
  readonly wasLapsed: boolean;
  readonly entryId: number;
}

/** Logs a payment. A sale that lapsed is paid only if the stock still bears it; a second payment is asked about. */
export function paySale(desk: Desk, by: By, input: PaymentInput): Result<PaymentLogged, Refusal> {
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  return desk.store.write(() => {
    const found = findSale(desk, input.sale, ['kept', 'lapsed']);
    if (!found.ok) return found;
    const before = found.value;
    const state = stateOf(desk, before);
    if (state === 'cancelled') return wrongState(desk, before, 'paid');
    const [last] = desk.store.sales.payments(before.id).slice(-1);
    if (last !== undefined && input.again !== true) {
      const { at: paidAt, by: who } = last;
      return fail({ kind: 'ask-paid-already', sale: before.id, at: paidAt, by: who, openMinor: openMinorOf(before) });
    }
    if (state === 'lapsed') {
      const refused = notInStock(desk, businessOf(desk), before.items, before.id);
      if (refused !== null) return fail(refused);
    }
    const openMinor = openMinorOf(before);
    const paid = paidAmount(input.amountMinor, openMinor);
    if (!paid.ok) return paid;
    if (paid.value === 0 && openMinor !== 0) return fail({ kind: 'nothing-paid', sale: before.id, openMinor });
    const entryId = log(desk, by, 'payment', `sale ${before.id} paid`, (entry) => {
      desk.store.sales.addPayment(entry, { saleId: before.id, amountMinor: paid.value, at: at.value });
    });
    return ok({
      sale: bookedSale(desk, before.id),
      amountMinor: paid.value,
      openMinor,
      wasLapsed: state === 'lapsed',
      entryId,
    });
  });
}

function paidAmount(given: number | undefined, openMinor: number | null): Result<number, Refusal> {
  if (given !== undefined) return ok(given);
  return openMinor === null
    ? fail({ kind: 'nothing-given', what: 'the amount: no price is set' })
    : ok(Math.max(0, openMinor));
}
