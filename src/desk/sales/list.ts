import { dayMs, dayOf, daysBetween, type Instant, type LocalDay, plusMs, type SaleState } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk } from '../desk.ts';
import { type JudgedDay, judgeSale } from '../dispatch/judge.ts';
import { isOpen, stateOf } from './find.ts';

export interface SaleInList {
  readonly sale: BookedSale;
  readonly state: SaleState;
  readonly judged: JudgedDay | null;
}

/** Sales in one state, or without a state those that are not over, by dispatch day. */
export function salesList(desk: Desk, state?: SaleState): SaleInList[] {
  const all = state === undefined || isOpen(state) ? desk.store.sales.open() : desk.store.sales.all();
  return all
    .map((sale) => ({ sale, state: stateOf(desk, sale) }))
    .filter((listed) => state === undefined || listed.state === state)
    .map((listed) => ({ ...listed, judged: isOpen(listed.state) ? judgeSale(desk, listed.sale) : null }))
    .sort((a, b) => (a.sale.dispatchOn ?? '9999').localeCompare(b.sale.dispatchOn ?? '9999') || a.sale.id - b.sale.id);
}

/** Sales that are neither sent nor cancelled and still reserve what they promise: kept or paid. */
export const openSales = (desk: Desk): BookedSale[] =>
  desk.store.sales.open().filter((sale) => stateOf(desk, sale) !== 'lapsed');

/** Parcels older than this are not asked after any more, days. */
const askedAfterDays = 30;

/** Parcels that should have arrived by now, slack included, of which nobody has said how; the first sent first. */
export function unheardOf(desk: Desk): BookedSale[] {
  const { zone, transitDays, slackDays } = businessOf(desk);
  const today = dayOf(desk.now(), zone);
  return desk.store.sales
    .onTheWay(plusMs(desk.now(), -askedAfterDays * dayMs))
    .filter(({ sentAt }) => sentAt !== null && daysBetween(dayOf(sentAt, zone), today) > transitDays + slackDays);
}

/** Sales planned for a day, by where they stand; lapsed ones are among the unpaid. */
export function salesOn(desk: Desk, day: LocalDay): { paid: BookedSale[]; unpaid: BookedSale[]; sent: BookedSale[] } {
  const all = desk.store.sales.on(day);
  const inState = (...states: SaleState[]): BookedSale[] => all.filter((sale) => states.includes(stateOf(desk, sale)));
  return { paid: inState('paid'), unpaid: inState('kept', 'lapsed'), sent: inState('sent', 'arrived') };
}

export interface SaleInTrouble {
  readonly sale: BookedSale;
  readonly judged: JudgedDay;
}

/** Open sales whose dispatch day is past, closed, or not good for another reason, with the next good day. */
export const salesInTrouble = (desk: Desk): SaleInTrouble[] =>
  openSales(desk).flatMap((sale) => {
    const judged = judgeSale(desk, sale);
    return judged === null || judged.good ? [] : [{ sale, judged }];
  });

/** What was sold and sent from one moment up to another. */
export interface SoldBetween {
  readonly sales: number;
  readonly parcels: number;
  readonly animals: number;
  readonly lines: readonly { readonly line: string; readonly number: number }[];
  readonly takingsMinor: number;
}

export function soldBetween(desk: Desk, from: Instant, to: Instant): SoldBetween {
  const { sales, parcels } = desk.store;
  return {
    sales: sales.soldBetween(from, to),
    takingsMinor: sales.paidBetween(from, to),
    ...parcels.sentBetween(from, to),
  };
}

/** What was sold and sent in the seven days up to now. */
export function soldInWeek(desk: Desk): SoldBetween {
  const now = desk.now();
  return soldBetween(desk, plusMs(now, -7 * dayMs), plusMs(now, 1));
}

/** Claims that nobody has answered, oldest first. */
export const openClaims = (desk: Desk): BookedSale[] => desk.store.sales.claimed();

/** Names of those who bought, the one with the newest sale first. */
export const buyersOf = (desk: Desk): string[] => desk.store.sales.buyerNames();
