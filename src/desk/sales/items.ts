import {
  type Business,
  extrasFor,
  fail,
  folded,
  mostThatFits,
  ok,
  type Refusal,
  type Result,
  type SaleItem,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { stockOf } from '../tubs/stock.ts';
import { itemWords } from './find.ts';

/** An item as it was understood: a line or goods by name, and how many. */
export interface WantedItem {
  readonly of: 'line' | 'goods';
  readonly name: string;
  readonly number: number;
}

/** More animals than this fit no order of ours; their extras are not worked out. */
const mostAnimals = 5000;

/** How many extras go with a number of animals, by what the arrival record says so far; the record is read once. */
export function extrasBy(desk: Desk, business: Business): (number: number) => number {
  const { sent, dead } = desk.store.parcels.arrivalRecord();
  return (number) => (number > mostAnimals ? 0 : extrasFor(number, { sent, dead }, business.fullOrderLevelPercent));
}

/**
 * The items by their ids with the extras and the price of one, as far as the books know them; what was named twice is one item. Call
 * inside the transaction that writes them.
 * @param sold items of the sale as it stands: what is among them keeps the price at which it was sold
 */
export function itemsWith(
  desk: Desk,
  business: Business,
  wanted: readonly WantedItem[],
  sold: readonly SaleItem[] = [],
): Result<SaleItem[], Refusal> {
  const named = { line: desk.store.tubs.lines(), goods: desk.store.goods.goods() };
  const extrasOf = extrasBy(desk, business);
  const items: SaleItem[] = [];
  for (const { of, name, number } of wanted) {
    const found = named[of].find((thing) => folded(thing.name) === folded(name));
    if (found === undefined) return fail({ kind: 'unknown', noun: of, typed: name, near: [] });
    if (!Number.isInteger(number) || number < 1) {
      const typed = { typed: number, min: 1, max: mostAnimals, whole: true };
      return fail({ kind: 'impossible-amount', amount: of === 'line' ? 'animals' : 'pieces', ...typed });
    }
    const index = items.findIndex((item) => item.of === of && item.id === found.id);
    const all = number + (items[index]?.number ?? 0);
    const { id } = found;
    const before = sold.find((item) => item.of === of && item.id === id);
    const item = { id, name: found.name, number: all, priceMinor: before?.priceMinor ?? found.priceMinor };
    const whole: SaleItem = of === 'goods' ? { ...item, of, extras: 0 } : { ...item, of, extras: extrasOf(all) };
    items.splice(index === -1 ? items.length : index, 1, whole);
  }
  return ok(items);
}

interface Room {
  readonly item: SaleItem;
  readonly free: number;
  readonly fits: number;
  readonly fitsExtras: number;
}

/**
 * Refuses what the stock cannot bear, and offers the largest order that it can. Call inside the transaction that writes the items,
 * so that nobody else reserves in between.
 * @param exceptSale the sale that the items belong to already, whose own promise is left out
 */
export function notInStock(
  desk: Desk,
  business: Business,
  items: readonly SaleItem[],
  exceptSale: number | null,
): Refusal | null {
  const rooms: Room[] = [];
  for (const item of items) {
    if (item.of === 'goods') {
      const there = desk.store.goods.goods().find(({ id }) => id === item.id)?.stock ?? 0;
      const free = there - desk.store.promises.ofGoods(item.id, desk.now(), exceptSale ?? 0);
      rooms.push({ item, free, fits: Math.max(0, Math.min(item.number, free)), fitsExtras: 0 });
      continue;
    }
    const line = desk.store.tubs.lines().find(({ id }) => id === item.id);
    if (line === undefined) return { kind: 'unknown', noun: 'line', typed: item.name, near: [] };
    const stock = stockOf(desk, line, exceptSale ?? 0);
    if (stock.uncounted.length === stock.tubs.length) {
      return { kind: 'not-counted', line: line.name, tubs: stock.uncounted };
    }
    const enough = item.number + item.extras <= stock.free && item.number <= mostAnimals;
    const room = enough
      ? { fits: item.number, fitsExtras: item.extras }
      : mostThatFits(Math.min(item.number, mostAnimals), stock.free, extrasBy(desk, business));
    rooms.push({ item, free: stock.free, ...room });
  }
  const short = rooms.find(({ item, fits }) => fits < item.number);
  if (short === undefined) return null;
  const rest = rooms.filter(({ fits }) => fits > 0).map(({ item, fits }) => ({ name: item.name, number: fits }));
  const about = {
    what: short.item.name,
    asked: short.item.number,
    free: short.free,
    sale: exceptSale,
    mended: rest.length > 0 ? itemWords(rest) : null,
  };
  return short.item.of === 'goods'
    ? { kind: 'not-enough-goods', ...about }
    : {
        kind: 'not-enough',
        ...about,
        extras: short.item.extras,
        fits: short.fits,
        fitsExtras: short.fitsExtras,
      };
}
