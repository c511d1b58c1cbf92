import {
  bagsInAll,
  type Goods,
  type LocalDay,
  type PackingNeed,
  packingNeed,
  packingUseOf,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, todayOf } from '../desk.ts';
import { openSales } from '../sales/list.ts';
import { planCatches } from './catch.ts';
import { namedShort } from './day.ts';
import { parcelBags } from './parcelBags.ts';

/** Pieces of some packing goods that a parcel takes when it leaves on a day. */
export function packingPieces(desk: Desk, goods: Goods, sale: BookedSale, day: LocalDay): number {
  const use = packingUseOf(goods);
  if (use === null) return 0;
  return use === 'parcel'
    ? 1
    : parcelBags(desk, sale, day).reduce((sum, { plan }) => sum + bagsInAll(plan.fillings), 0);
}

/** How far packing goods last for the open sales ahead, those left over counted for today; null: no parcel is packed in them. */
export function packingNeedOf(desk: Desk, goods: Goods): PackingNeed | null {
  if (packingUseOf(goods) === null) return null;
  const today = todayOf(desk);
  const ahead = openSales(desk).flatMap((sale) => {
    const { dispatchOn } = sale;
    if (dispatchOn === null) return [];
    const isOver = dispatchOn < today;
    return [{ sale, day: isOver ? today : dispatchOn }];
  });
  return packingNeed(
    goods,
    ahead.map(({ sale, day }) => ({ day, pieces: packingPieces(desk, goods, sale, day) })),
  );
}

/** What some parcels of a day lack: animals that the tubs can't spare, goods that were sold, and what they are packed in. */
export function shortFor(
  desk: Desk,
  day: LocalDay,
  sales: readonly BookedSale[],
): { readonly what: string; readonly asked: number; readonly there: number }[] {
  const animals = [...planCatches(desk, sales).values()].flatMap(({ short }) => namedShort(desk, short));
  const goods = desk.store.goods.goods().map((each) => {
    const sold = sales.flatMap(({ items }) => items.filter(({ of, id }) => of === 'goods' && id === each.id));
    const packed = sales.reduce((sum, sale) => sum + packingPieces(desk, each, sale, day), 0);
    return { what: each.name, asked: sold.reduce((sum, { number }) => sum + number, packed), there: each.stock };
  });
  return [...animals, ...goods.filter(({ asked, there }) => asked > there)];
}
