import {
  type By,
  fail,
  type Instant,
  type LocalDay,
  ok,
  priceOf,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import type { BookedSale, SaleVersion } from '../../store/sales.ts';
import { businessOf, type Desk, log, nth } from '../desk.ts';
import { type JudgedDay, judgeSale, plannedDay } from '../dispatch/judge.ts';
import { bookedSale, saidOf } from './add.ts';
import { buyerIdOf } from './buyers.ts';
import { type CarriedGoods, carriedGoods } from './carried.ts';
import { findSale, isOpen, itemWords, stateOf, wrongState } from './find.ts';
import { itemsWith, notInStock, type WantedItem } from './items.ts';
import { keptFrom } from './kept.ts';
import { salesInTrouble } from './list.ts';

export interface SaleEdit {
  readonly sale: string;
  readonly items?: readonly WantedItem[] | undefined;
  readonly buyer?: string | undefined;
  readonly area?: string | undefined;
  readonly dispatchOn?: LocalDay | undefined;
  readonly priceMinor?: number | undefined;
  readonly postageMinor?: number | undefined;
}

export interface SaleEdited {
  readonly before: BookedSale;
  readonly sale: BookedSale;
  readonly judged: JudgedDay | null;
  /** The asker had not paid in time, and the items were free to be reserved anew. */
  readonly reservedAnew: boolean;
  readonly carried: CarriedGoods;
  readonly entryId: number;
}

/** The version of a sale as it stands, to be written again with something changed. */
export const versionOf = (sale: BookedSale): SaleVersion => ({
  buyerId: sale.buyerId,
  area: sale.area,
  region: sale.region,
  dispatchOn: sale.dispatchOn,
  priceMinor: sale.priceMinor,
  postageMinor: sale.postageMinor,
  outletId: sale.outletId,
  keptUntil: sale.keptUntil,
  cancelled: sale.cancelled,
  items: sale.items,
});

/** Changes a sale that is not sent yet. New items, and those of a sale that lapsed, are checked against the stock without its own promise. */
export function editSale(desk: Desk, by: By, input: SaleEdit): Result<SaleEdited, Refusal> {
  const { sale: typed, ...given } = input;
  const changes = Object.entries(given).filter(([, value]) => value !== undefined);
  if (changes.length === 0) return fail({ kind: 'nothing-given', what: 'what is to be changed about the sale' });
  const said = saidOf(desk, given);
  if (!said.ok) return said;
  return desk.store.write(() => {
    const found = findSale(desk, typed, ['kept', 'lapsed', 'paid']);
    if (!found.ok) return found;
    const before = found.value;
    if (!isOpen(stateOf(desk, before))) return wrongState(desk, before, 'edited');
    if (given.dispatchOn !== undefined && isOnlyItsDay(desk, before, changes, given.dispatchOn)) {
      return fail({ kind: 'same-day', sale: before.id, day: given.dispatchOn });
    }
    const changed = changedVersion(desk, before, given);
    if (!changed.ok) return changed;
    const what = changes.map(([name]) => editWords[name] ?? name).join(', ');
    const items = itemWords(given.items ?? before.items);
    const entryId = log(desk, by, 'sale', `sale ${before.id}: ${items}, ${what} changed`, (entry) => {
      const buyerId = given.buyer === undefined ? before.buyerId : buyerIdOf(desk, entry, given.buyer);
      desk.store.sales.edit(entry, before.id, { ...changed.value, buyerId });
    });
    const sale = bookedSale(desk, before.id);
    const reservedAnew = stateOf(desk, before) === 'lapsed';
    return ok({
      before,
      sale,
      judged: judgeSale(desk, sale),
      reservedAnew,
      carried: carriedGoods(desk, sale),
      entryId,
    });
  });
}

/** Whether an edit gives nothing but the day that a sale is kept for already; one that lapsed is reserved anew by it. */
const isOnlyItsDay = (desk: Desk, before: BookedSale, changes: readonly unknown[], on: LocalDay): boolean =>
  changes.length === 1 && on === before.dispatchOn && stateOf(desk, before) !== 'lapsed';

const editWords: Readonly<Record<string, string>> = {
  dispatchOn: 'dispatch day',
  priceMinor: 'price',
  postageMinor: 'postage',
};

function changedVersion(desk: Desk, before: BookedSale, given: Omit<SaleEdit, 'sale'>): Result<SaleVersion, Refusal> {
  const business = businessOf(desk);
  const lapsed = stateOf(desk, before) === 'lapsed';
  const items = given.items === undefined ? ok(before.items) : itemsWith(desk, business, given.items, before.items);
  if (!items.ok) return items;
  if (lapsed || given.items !== undefined) {
    const refused = notInStock(desk, business, items.value, before.id);
    if (refused !== null) return fail(refused);
  }
  const dispatchOn = given.dispatchOn ?? before.dispatchOn;
  const reservedAt: Instant = lapsed ? desk.now() : before.addedAt;
  const moved = given.dispatchOn !== undefined && given.dispatchOn !== before.dispatchOn;
  const byTheList = before.priceMinor === priceOf(before.items).priceMinor;
  const listed = given.items !== undefined && byTheList ? priceOf(items.value).priceMinor : before.priceMinor;
  return ok({
    ...versionOf(before),
    items: items.value,
    area: given.area === undefined ? before.area : given.area.trim() || null,
    dispatchOn,
    priceMinor: given.priceMinor ?? listed,
    postageMinor: given.postageMinor ?? before.postageMinor,
    keptUntil: lapsed || moved ? keptStill(desk, before, reservedAt, dispatchOn) : before.keptUntil,
  });
}

/** A sale that is moved to a later day is kept as long as its terms say from when it was reserved, but never lapses by being moved. */
function keptStill(desk: Desk, before: BookedSale, reservedAt: Instant, dispatchOn: LocalDay | null): Instant {
  const business = businessOf(desk);
  const until = keptFrom(business, reservedAt, dispatchOn);
  return until > desk.now() || before.paidAt !== null ? until : keptFrom(business, desk.now(), dispatchOn);
}

/** Moves a sale to another dispatch day. */
export const moveSale = (desk: Desk, by: By, sale: number, day: LocalDay): Result<SaleEdited, Refusal> =>
  editSale(desk, by, { sale: String(sale), dispatchOn: day });

export interface SalesMoved {
  readonly moved: readonly SaleEdited[];
  readonly notMoved: readonly { readonly sale: number; readonly fault: Refusal }[];
}

/** Moves every open sale whose day is not good to the next day that is, all in one transaction. */
export function moveAllInTrouble(desk: Desk, by: By): SalesMoved {
  return desk.store.write(() => {
    const moved: SaleEdited[] = [];
    const notMoved: { sale: number; fault: Refusal }[] = [];
    for (const { sale, judged } of salesInTrouble(desk)) {
      const done =
        judged.next === null
          ? fail<Refusal>({ kind: 'no-good-day', sale: sale.id })
          : moveSale(desk, nth(by, moved.length), sale.id, judged.next);
      if (done.ok) moved.push(done.value);
      else notMoved.push({ sale: sale.id, fault: done.fault });
    }
    return { moved, notMoved };
  });
}

/** Moves a sale to the next good day after the one that it is planned for. */
export function moveToNext(desk: Desk, by: By, typed: string): Result<SaleEdited, Refusal> {
  const found = findSale(desk, typed);
  if (!found.ok) return found;
  const next = judgeSale(desk, found.value)?.next ?? null;
  if (next === null) return fail({ kind: 'no-good-day', sale: found.value.id });
  const planned = plannedDay(desk, next);
  return planned.ok ? moveSale(desk, by, found.value.id, planned.value) : planned;
}
