import {
  fail,
  folded,
  type Instant,
  ok,
  type Parcel,
  type Refusal,
  type Result,
  type Sale,
  type SaleState,
  saleState,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import type { Desk } from '../desk.ts';

/** What a sale is now. */
export const stateOf = (desk: Desk, sale: Sale): SaleState => saleState(sale, desk.now());

/** Whether it is neither sent nor cancelled. */
export const isOpen = (state: SaleState): boolean => state === 'kept' || state === 'lapsed' || state === 'paid';

/** "20 jade, 2 moss". */
export const itemWords = (items: readonly { readonly number: number; readonly name: string }[]): string =>
  items.map(({ number, name }) => `${number} ${name}`).join(', ');

/**
 * The sale that is meant by its number ("41", "sale 41", "#41") or its buyer's name. Of a buyer's sales, those in one of the states
 * that `fitting` names come before others, and the only one left is it; several left are a refusal that lists them.
 */
export function findSale(
  desk: Desk,
  typed: string,
  fitting: readonly SaleState[] = ['kept', 'lapsed', 'paid', 'sent'],
): Result<BookedSale, Refusal> {
  const number = /^(?:sale|parcel)?\s*#?\s*(\d{1,9})$/i.exec(typed.trim())?.[1];
  if (number !== undefined) {
    const found = desk.store.sales.get(Number(number));
    return found === undefined ? unknown(desk, typed) : ok(found);
  }
  const buyer = buyerNamed(desk, typed);
  const theirs = buyer === undefined ? [] : desk.store.sales.ofBuyer(buyer);
  const fit = theirs.filter((sale) => fitting.includes(stateOf(desk, sale)));
  const [first, ...others] = fit.length > 0 ? fit : theirs.slice(-1);
  if (first === undefined) return unknown(desk, typed);
  if (others.length === 0) return ok(first);
  return fail({
    kind: 'ambiguous',
    noun: 'sale',
    typed,
    near: [first, ...others].map((sale) => `${sale.id} (${itemWords(sale.items)})`),
  });
}

/** The id of the buyer of that name, without regard to case and blanks; undefined: nobody of that name bought. */
export const buyerNamed = (desk: Desk, typed: string): number | undefined =>
  desk.store.sales.buyers().find(({ name }) => folded(name) === folded(typed))?.id;

function unknown(desk: Desk, typed: string): Result<never, Refusal> {
  const start = folded(typed);
  const near = desk.store.sales
    .open()
    .filter(({ buyer }) => buyer !== null && start !== '' && folded(buyer).startsWith(start.slice(0, 3)))
    .slice(0, 3)
    .map(({ id, buyer }) => `${id} (${buyer})`);
  return fail({ kind: 'unknown', noun: 'sale', typed, near });
}

/** A refusal of an act that a sale's state does not allow, with when it came to be so. */
export function wrongState(desk: Desk, sale: BookedSale, wanted: string): { ok: false; fault: Refusal } {
  const state = stateOf(desk, sale);
  const since: Record<SaleState, Instant | null> = {
    kept: null,
    lapsed: sale.keptUntil,
    paid: sale.paidAt,
    sent: sale.sentAt,
    arrived: sale.arrival?.deliveredAt ?? null,
    cancelled: sale.cancelled?.at ?? null,
  };
  const by = state === 'arrived' ? (sale.arrival?.by ?? null) : null;
  return fail({ kind: 'sale-state', sale: sale.id, state, wanted, at: since[state], by });
}

/** A sale by its number, as controls carry it; undefined where it was undone. */
export const saleById = (desk: Desk, id: number): BookedSale | undefined => desk.store.sales.get(id);

/** The sale that settles a claim by sending again; null: none. */
export function resendOf(desk: Desk, id: number): BookedSale | null {
  const resend = desk.store.sales.resendOf(id);
  return resend === undefined ? null : (desk.store.sales.get(resend) ?? null);
}

/** The parcels of a sale with where their animals were caught. */
export const parcelsOf = (desk: Desk, saleId: number): Parcel[] => desk.store.parcels.parcels(saleId);
