import type { Sale } from './sale.ts';

type Owed = Pick<Sale, 'priceMinor' | 'postageMinor' | 'paidMinor'>;

/** What a buyer still has to pay, price and postage less what came, minor units; negative: more came. Null: no price is known. */
export const openMinorOf = ({ priceMinor, postageMinor, paidMinor }: Owed): number | null =>
  priceMinor === null ? null : priceMinor + postageMinor - paidMinor;

/** Paid: what came reaches the total. Without a price nobody can say what is missing, so any payment is all of it. */
export const isPaid = (sale: Owed & Pick<Sale, 'paidAt'>): boolean =>
  sale.paidAt !== null && (openMinorOf(sale) ?? 0) <= 0;

/** A part came and the rest is open: the sale stays reserved, and is not packed. */
export const isPartPaid = (sale: Owed & Pick<Sale, 'paidAt'>): boolean => sale.paidAt !== null && !isPaid(sale);
