import type { SaleItem } from './sale.ts';

/** What the items of an order cost together. */
export interface ItemsPrice {
  /** Minor units; null while one of the items has no price. */
  readonly priceMinor: number | null;
  /** What the items with a price cost, minor units. */
  readonly knownMinor: number;
  /** Names of the items without one. */
  readonly unpriced: readonly string[];
}

/** The price of an order's items by what each costs, extras free, postage apart. */
export function priceOf(items: readonly Pick<SaleItem, 'name' | 'number' | 'priceMinor'>[]): ItemsPrice {
  let knownMinor = 0;
  const unpriced: string[] = [];
  for (const { name, number, priceMinor } of items) {
    if (priceMinor === null) unpriced.push(name);
    else knownMinor += priceMinor * number;
  }
  return { priceMinor: unpriced.length === 0 ? knownMinor : null, knownMinor, unpriced: [...new Set(unpriced)] };
}
