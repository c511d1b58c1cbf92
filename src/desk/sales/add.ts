import {
  type By,
  fail,
  type LocalDay,
  type Outlet,
  ok,
  priceOf,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk, log } from '../desk.ts';
import { type JudgedDay, judgeSale, nextDayFor, plannedDay } from '../dispatch/judge.ts';
import { regionOf } from '../dispatch/places.ts';
import { byName } from '../find.ts';
import { isName } from '../setup.ts';
import { buyerIdOf } from './buyers.ts';
import { type CarriedGoods, carriedGoods } from './carried.ts';
import { buyerNamed, itemWords } from './find.ts';
import { itemsWith, notInStock, type WantedItem } from './items.ts';
import { keptFrom } from './kept.ts';
import { takeSoldOff, type WishSold } from './waiting.ts';

export interface SaleInput {
  readonly items: readonly WantedItem[];
  readonly buyer?: string | undefined;
  readonly area?: string | undefined;
  readonly region?: string | undefined;
  readonly dispatchOn?: LocalDay | undefined;
  /** The agreed total without postage, minor units; by default the price list's. */
  readonly priceMinor?: number | undefined;
  readonly postageMinor?: number | undefined;
  readonly outlet?: string | undefined;
}

export interface SaleBooked {
  readonly sale: BookedSale;
  /** The dispatch day judged; null where no day is good within a year. */
  readonly judged: JudgedDay | null;
  /** The day was chosen for the asker. */
  readonly proposed: boolean;
  /** Names of the items that the price list has no price for. */
  readonly unpriced: readonly string[];
  readonly carried: CarriedGoods;
  /** Lines that the buyer waited for, off the waiting list with this sale. */
  readonly waited: readonly WishSold[];
  readonly entryId: number;
}

/** Books a sale: reads what is free and reserves it in one transaction, then judges the dispatch day. */
export function addSale(desk: Desk, by: By, input: SaleInput): Result<SaleBooked, Refusal> {
  const business = businessOf(desk);
  const said = saidOf(desk, input);
  if (!said.ok) return said;
  const { outlet, region: typedRegion } = said.value;
  return desk.store.write(() => {
    const items = itemsWith(desk, business, input.items);
    if (!items.ok) return items;
    const refused = notInStock(desk, business, items.value, null);
    if (refused !== null) return fail(refused);

    const known = placeOfBuyer(desk, input.buyer);
    const region = typedRegion ?? known?.region ?? null;
    const area = input.area?.trim() || (known?.area ?? null);
    const dispatchOn = input.dispatchOn ?? nextDayFor(desk, { area, region });
    const price = priceOf(items.value);
    const now = desk.now();
    const number = desk.store.sales.nextNumber();
    let waited: readonly WishSold[] = [];
    const entryId = log(desk, by, 'sale', `sale ${number}: ${itemWords(items.value)}`, (entry) => {
      const buyerId = buyerIdOf(desk, entry, input.buyer);
      desk.store.sales.add(
        entry,
        {
          buyerId,
          area,
          region,
          dispatchOn,
          priceMinor: input.priceMinor ?? price.priceMinor,
          postageMinor: input.postageMinor ?? 0,
          outletId: outlet?.id ?? null,
          keptUntil: keptFrom(business, now, dispatchOn),
          cancelled: null,
          items: items.value,
        },
        now,
      );
      waited = takeSoldOff(desk, entry, buyerId, items.value);
    });
    const sale = bookedSale(desk, number);
    return ok({
      sale,
      judged: judgeSale(desk, sale),
      proposed: input.dispatchOn === undefined,
      unpriced: input.priceMinor === undefined ? price.unpriced : [],
      waited,
      carried: carriedGoods(desk, sale),
      entryId,
    });
  });
}

/** The sale of a number that was just written or read. */
export function bookedSale(desk: Desk, id: number): BookedSale {
  const sale = desk.store.sales.get(id);
  if (sale === undefined) throw new Error(`sale ${id} is not in the books`);
  return sale;
}

/** What a person says about a sale beside its items, checked against the books. */
export function saidOf(
  desk: Desk,
  said: Pick<SaleInput, 'buyer' | 'area' | 'region' | 'outlet' | 'dispatchOn'>,
): Result<{ outlet: Outlet | undefined; region: string | undefined }, Refusal> {
  if (said.buyer !== undefined && !isName(said.buyer.trim())) {
    return fail({ kind: 'bad-name', noun: 'buyer', typed: said.buyer });
  }
  if (said.area !== undefined && said.area.trim() !== '' && !isName(said.area.trim())) {
    return fail({ kind: 'bad-name', noun: 'area', typed: said.area });
  }
  if (said.dispatchOn !== undefined) {
    const planned = plannedDay(desk, said.dispatchOn);
    if (!planned.ok) return planned;
  }
  const region = said.region === undefined ? ok(undefined) : regionOf(said.region);
  if (!region.ok) return region;
  const outlet =
    said.outlet === undefined ? ok(undefined) : byName('outlet', said.outlet, desk.store.outlets.outlets());
  return outlet.ok ? ok({ outlet: outlet.value, region: region.value }) : outlet;
}

/** Where the last parcel of the buyer of that name goes, if one bought before. */
function placeOfBuyer(desk: Desk, typed: string | undefined) {
  const id = typed === undefined ? undefined : buyerNamed(desk, typed);
  return id === undefined ? undefined : desk.store.sales.lastPlace(id);
}
