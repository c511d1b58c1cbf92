import type { SaleItem } from '../sales/sale.ts';
import { splitMinor } from './split.ts';

/** What each item of an order brought of its agreed price. */
export interface ItemShares {
  /** Minor units, in the order of the items; they add up to the price. */
  readonly minor: readonly number[];
  /** Whether every item's price when it was sold is known; where it is not, the rest of the price is shared by number. */
  readonly isKnown: boolean;
}

/**
 * Shares an agreed price among the items in proportion to what each cost by the list when it was sold, so that a discount is borne alike.
 * Items whose price is not known share what the others leave, by number. Source of the proportion: IFRS 15, paragraphs 76 to 80
 * (allocation on the basis of relative stand-alone selling prices).
 * @param priceMinor whole minor units, 0 and up
 */
export function itemShares(priceMinor: number, items: readonly Pick<SaleItem, 'number' | 'priceMinor'>[]): ItemShares {
  const listMinor = items.map(({ number, priceMinor: each }) => (each === null ? null : each * number));
  const isKnown = listMinor.every((list) => list !== null) || items.length === 1;
  if (listMinor.every((list) => list === null || list === 0)) {
    const unknown = items.map(({ number }, index) => (listMinor[index] === null ? number : 0));
    const weights = unknown.some((weight) => weight > 0) ? unknown : items.map(({ number }) => number);
    return { minor: splitMinor(priceMinor, weights), isKnown };
  }
  const knownMinor = listMinor.reduce<number>((sum, list) => sum + (list ?? 0), 0);
  const hasRest = !isKnown && priceMinor > knownMinor;
  const known = splitMinor(
    hasRest ? knownMinor : priceMinor,
    listMinor.map((list) => list ?? 0),
  );
  if (!hasRest) return { minor: known, isKnown };
  const rest = splitMinor(
    priceMinor - knownMinor,
    items.map(({ number }, index) => (listMinor[index] === null ? number : 0)),
  );
  return { minor: known.map((minor, index) => minor + (rest[index] ?? 0)), isKnown };
}
