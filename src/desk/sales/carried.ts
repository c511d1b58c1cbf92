import { type CarriedYoung, carriedYoung, type Goods, heldUntil, type Instant, instantAt } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk } from '../desk.ts';

/** What is to be minded about the goods of an order that may carry young. */
export interface CarriedGoods {
  readonly crossing: readonly CarriedYoung[];
  /** Goods of which too few will have been held long enough when the parcel leaves. */
  readonly notHeld: readonly { readonly goods: string; readonly held: number; readonly until: Instant }[];
}

/** Goods with a line in an order: to whom they go, and whether they were held long enough by the morning on which they leave. */
export function carriedGoods(desk: Desk, sale: BookedSale): CarriedGoods {
  const goods = desk.store.goods.goods();
  const before = sale.buyerId === null ? [] : desk.store.sales.ofBuyer(sale.buyerId);
  const sold = [...before.filter(({ cancelled }) => cancelled === null), sale];
  const lines = sold.flatMap(({ items }) => items.flatMap(({ of, name }) => (of === 'line' ? [name] : [])));
  return {
    crossing: carriedYoung(sale.items, goods, lines),
    notHeld: sale.items.flatMap((item) => {
      const own = item.of === 'goods' ? goods.find(({ id }) => id === item.id) : undefined;
      return own === undefined ? [] : notHeldBy(desk, sale, own, item.number);
    }),
  };
}

function notHeldBy(desk: Desk, { dispatchOn }: BookedSale, goods: Goods, wanted: number): CarriedGoods['notHeld'] {
  if (goods.lineId === null) return [];
  const { zone, morningAt } = businessOf(desk);
  const morning = dispatchOn === null ? desk.now() : instantAt(dispatchOn, morningAt, zone);
  // Instants sort as text.
  const [, leaves = morning] = [morning, desk.now()].sort();
  const added = desk.store.goods.added(goods.id).flatMap(({ at, number }) => {
    const until = heldUntil(at, leaves);
    return until === null ? [] : [{ number, until }];
  });
  const held = Math.max(0, goods.stock - added.reduce((sum, { number }) => sum + number, 0));
  const until = added
    .map((one) => one.until)
    .sort()
    .at(-1);
  return held >= wanted || until === undefined ? [] : [{ goods: goods.name, held, until }];
}

/** When the newest pieces of goods that may carry young have been held long enough; null: all have, or they carry none. */
export const goodsHeldUntil = (desk: Desk, { id, lineId }: Goods): Instant | null =>
  lineId === null ? null : heldUntil(desk.store.goods.added(id).at(-1)?.at ?? null, desk.now());
