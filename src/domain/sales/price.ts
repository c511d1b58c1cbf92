import type { SaleItem } from './sale.ts';

/** Price of one, by id, in minor units; null or absent: not set. */
export type PriceList = ReadonlyMap<number, number | null>;

/** What the items of an order cost together. */
export interface ItemsPrice {
  /** Minor units; null while one of the items has no price. */
  readonly priceMinor: number | null;
  /** What the items with a price cost, minor units. */
  readonly knownMinor: number;
  /** Names of the items without one. */
  readonly unpriced: readonly string[];
}

/** The price of an order's items, extras free, postage apart. */
export function priceOf(
  items: readonly Pick<SaleItem, 'of' | 'id' | 'name' | 'number'>[],
  prices: { readonly line: PriceList; readonly goods: PriceList },
): ItemsPrice {
  let knownMinor = 0;
  const unpriced: string[] = [];
  for (const item of items) {
    const each = prices[item.of].get(item.id) ?? null;
    if (each === null) unpriced.push(item.name);
    else knownMinor += each * item.number;
  }
  return { priceMinor: unpriced.length === 0 ? knownMinor : null, knownMinor, unpriced: [...new Set(unpriced)] };
}
