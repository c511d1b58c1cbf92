import {
  type By,
  type Catch,
  dayOf,
  fail,
  type Instant,
  isGoodDay,
  isPaid,
  nextGoodDay,
  ok,
  openMinorOf,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk, log, todayOf } from '../desk.ts';
import { bookedSale } from '../sales/add.ts';
import { findSale, isOpen, stateOf, wrongState } from '../sales/find.ts';
import { salesOn } from '../sales/list.ts';
import { whenOf } from '../when.ts';
import { catchRegardless, demandsOf, planCatches } from './catch.ts';
import { type NamedCatch, namedCatches, namedShort, toPackOn } from './day.ts';
import { judgeFor } from './judge.ts';
import { packingPieces } from './packingNeeds.ts';

export interface SentInput {
  readonly sale: string;
  readonly tracking?: string | undefined;
  readonly at?: Instant | undefined;
  /** What the asker said to the questions: sent a second time, or only a new tracking number for the parcel that left. */
  readonly again?: 'parcel' | 'tracking' | undefined;
  readonly unpaid?: boolean | undefined;
  readonly anyway?: boolean | undefined;
  readonly short?: boolean | undefined;
}

export interface ParcelSent {
  readonly sale: BookedSale;
  readonly at: Instant;
  readonly tracking: string | null;
  /** From which tubs, in rack order; empty where only a tracking number was added. */
  readonly catches: readonly NamedCatch[];
  readonly goods: readonly {
    readonly name: string;
    readonly number: number;
    readonly left: number;
    readonly keepAtLeast: number;
  }[];
  /** Animals that no tub holds by the books. */
  readonly missing: number;
  readonly trackingOnly: boolean;
  readonly entryId: number;
}

/**
 * Marks a sale as sent: its animals leave the tubs that they were caught from and its goods the shelf. Unpaid, sent already, not safe
 * that day and not there by the books are asked about before.
 */
export function sendParcel(desk: Desk, by: By, input: SentInput): Result<ParcelSent, Refusal> {
  const at = whenOf(desk, input.at);
  if (!at.ok) return at;
  return desk.store.write(() => {
    const found = findSale(desk, input.sale, ['paid', 'kept', 'lapsed']);
    if (!found.ok) return found;
    const sale = found.value;
    const state = stateOf(desk, sale);
    if (state === 'cancelled' || state === 'arrived') return wrongState(desk, sale, 'sent');
    if (state === 'sent' && input.again !== 'parcel') return trackingAfterwards(desk, by, sale, input);
    const asked = questionOn(desk, sale, at.value, input);
    if (asked !== null) return fail(asked);
    const planned = catchesFor(desk, sale, input.short === true);
    if (!planned.ok) return planned;
    return ok(writeParcel(desk, by, sale, { ...planned.value, at: at.value, tracking: textOf(input.tracking) }));
  });
}

const textOf = (typed: string | undefined): string | null => typed?.trim() || null;

/** A parcel that left can get its tracking number later; a parcel with another one is asked about. */
function trackingAfterwards(desk: Desk, by: By, sale: BookedSale, input: SentInput): Result<ParcelSent, Refusal> {
  const parcel = desk.store.parcels.parcels(sale.id).at(-1);
  const tracking = textOf(input.tracking);
  const welcome = tracking !== null && (sale.tracking === null || input.again === 'tracking');
  if (parcel === undefined || !welcome) {
    const { at, by: who } = parcel ?? { at: sale.sentAt ?? desk.now(), by: sale.by };
    return fail({
      kind: 'ask-sent-already',
      sale: sale.id,
      at,
      by: who,
      tracking: sale.tracking,
      newTracking: tracking,
    });
  }
  const entryId = log(desk, by, 'parcel', `parcel ${sale.id}: tracking number`, (entry) => {
    desk.store.parcels.setTracking(entry, parcel.id, tracking);
  });
  const after = bookedSale(desk, sale.id);
  return ok({ sale: after, at: parcel.at, tracking, catches: [], goods: [], missing: 0, trackingOnly: true, entryId });
}

function questionOn(desk: Desk, sale: BookedSale, at: Instant, input: SentInput): Refusal | null {
  if (isOpen(stateOf(desk, sale)) && !isPaid(sale) && input.unpaid !== true) {
    return { kind: 'ask-unpaid', sale: sale.id, priceMinor: openMinorOf(sale) };
  }
  if (input.anyway === true) return null;
  const day = dayOf(at, businessOf(desk).zone);
  const judged = judgeFor(desk, sale, day, { today: day, now: at })(day);
  if (isGoodDay(judged)) return null;
  const today = todayOf(desk);
  const next = nextGoodDay(today, judgeFor(desk, sale, today));
  return { kind: 'ask-not-safe', sale: sale.id, day, reasons: judged.reasons, next };
}

interface Planned {
  readonly catches: readonly Catch[];
  readonly missing: number;
}

/** The catches by the list of the parcel's day; where the books are short they are asked about, or taken from where there are any. */
function catchesFor(desk: Desk, sale: BookedSale, regardless: boolean): Result<Planned, Refusal> {
  const day = sale.dispatchOn ?? todayOf(desk);
  const list = [...toPackOn(desk, day), ...salesOn(desk, day).sent].filter(({ id }) => id !== sale.id);
  const plan = planCatches(desk, [...list, { ...sale, sentAt: null }]).get(sale.id);
  const short = [...namedShort(desk, plan?.short ?? []), ...goodsShort(desk, sale)];
  if (short.length === 0) return ok({ catches: plan?.catches ?? [], missing: 0 });
  if (!regardless) return fail({ kind: 'ask-short', sale: sale.id, short });
  return ok(catchRegardless(desk, demandsOf(sale)));
}

function goodsShort(desk: Desk, sale: BookedSale): { what: string; asked: number; there: number }[] {
  const goods = new Map(desk.store.goods.goods().map((each) => [each.id, each]));
  return sale.items.flatMap((item) => {
    const there = item.of === 'goods' ? (goods.get(item.id)?.stock ?? 0) : item.number;
    return there < item.number ? [{ what: item.name, asked: item.number, there: Math.max(0, there) }] : [];
  });
}

function writeParcel(
  desk: Desk,
  by: By,
  sale: BookedSale,
  parcel: Planned & { readonly at: Instant; readonly tracking: string | null },
): ParcelSent {
  const { at, tracking, catches, missing } = parcel;
  const stock = new Map(desk.store.goods.goods().map((each) => [each.id, each]));
  const goods: ParcelSent['goods'][number][] = [];
  const entryId = log(desk, by, 'parcel', `parcel ${sale.id} sent`, (entry) => {
    desk.store.parcels.addParcel(entry, { saleId: sale.id, tracking, at, catches });
    for (const item of sale.items) {
      const there = item.of === 'goods' ? stock.get(item.id) : undefined;
      if (there === undefined) continue;
      const out = Math.min(item.number, Math.max(0, there.stock));
      desk.store.goods.addStock(entry, there.id, at, -out);
      goods.push({ name: there.name, number: item.number, left: there.stock - out, keepAtLeast: there.keepAtLeast });
    }
    // What it is packed in goes with it, as far as the books have any.
    const day = dayOf(at, businessOf(desk).zone);
    for (const there of stock.values()) {
      const out = Math.min(packingPieces(desk, there, sale, day), Math.max(0, there.stock));
      if (out === 0) continue;
      desk.store.goods.addStock(entry, there.id, at, -out);
      goods.push({ name: there.name, number: out, left: there.stock - out, keepAtLeast: there.keepAtLeast });
    }
  });
  return {
    sale: bookedSale(desk, sale.id),
    at,
    tracking,
    catches: namedCatches(desk, catches),
    goods,
    missing,
    trackingOnly: false,
    entryId,
  };
}
