import {
  animalsOf,
  type Catch,
  type LineBags,
  type LocalDay,
  type PackingState,
  packingState,
  type Shortfall,
  type Tub,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, todayOf } from '../desk.ts';
import { type CarriedGoods, carriedGoods } from '../sales/carried.ts';
import { stateOf } from '../sales/find.ts';
import { salesOn } from '../sales/list.ts';
import { inOrder, planCatches } from './catch.ts';
import { standingChecks } from './caught.ts';
import { type JudgedDay, judgeDay } from './judge.ts';
import { parcelBags } from './parcelBags.ts';

/** Animals of one line to net from one tub. */
export interface NamedCatch {
  readonly tub: string;
  readonly rack: string;
  readonly line: string;
  readonly number: number;
}

export interface ParcelToPack {
  readonly sale: BookedSale;
  /** The day judged for where this parcel goes. */
  readonly judged: JudgedDay;
  readonly catches: readonly NamedCatch[];
  /** Lines that the tubs cannot give in full. */
  readonly short: readonly { readonly what: string; readonly asked: number; readonly there: number }[];
  /** What it is packed in, line by line. */
  readonly bags: readonly LineBags[];
  /** What is to be minded about goods that may carry young. */
  readonly carried: CarriedGoods;
  /** How far it is packed. */
  readonly packed: PackingState;
  /** Its day was an earlier one. */
  readonly overdue: boolean;
}

/** What is to be packed on a day. */
export interface PackingList {
  readonly day: LocalDay;
  /** Paid and not sent, first paid first. */
  readonly parcels: readonly ParcelToPack[];
  /** All that is to be netted, in rack order, each tub and line once. */
  readonly catches: readonly (NamedCatch & { readonly sales: readonly number[] })[];
  readonly unpaid: readonly BookedSale[];
  readonly sent: readonly BookedSale[];
  /** The day as such, for a parcel to the sender's own region. */
  readonly judged: JudgedDay;
}

/** The paid parcels of a day that are not sent; today's list holds those left over from earlier days too. */
export function toPackOn(desk: Desk, day: LocalDay): BookedSale[] {
  const isToday = day === todayOf(desk);
  return desk.store.sales
    .open()
    .filter((sale) => stateOf(desk, sale) === 'paid')
    .filter(({ dispatchOn }) => dispatchOn === day || (isToday && dispatchOn !== null && dispatchOn < day))
    .sort(inOrder);
}

/** The packing list of a day. */
export function packingList(desk: Desk, day: LocalDay): PackingList {
  const sales = toPackOn(desk, day);
  const { unpaid, sent } = salesOn(desk, day);
  const plans = planCatches(desk, [...sales, ...sent.filter(({ sentAt }) => sentAt !== null)]);
  const parcels = sales.map((sale): ParcelToPack => {
    const plan = plans.get(sale.id);
    return {
      sale,
      judged: judgeDay(desk, day, sale),
      catches: namedCatches(desk, plan?.catches ?? []),
      short: namedShort(desk, plan?.short ?? []),
      bags: parcelBags(desk, sale, day),
      carried: carriedGoods(desk, sale),
      packed: packingState(standingChecks(desk, sale), animalsOf(sale).sent),
      overdue: sale.dispatchOn !== day,
    };
  });
  return {
    day,
    parcels,
    catches: byTub(desk, parcels),
    unpaid,
    sent,
    judged: judgeDay(desk, day, { area: null, region: null }),
  };
}

const lineNames = (desk: Desk): Map<number, string> =>
  new Map(desk.store.tubs.lines().map(({ id, name }) => [id, name]));

/** Catches by name, in rack order. */
export function namedCatches(desk: Desk, catches: readonly Catch[]): NamedCatch[] {
  const lines = lineNames(desk);
  return desk.store.tubs.tubs().flatMap((tub: Tub) =>
    catches
      .filter(({ tubId }) => tubId === tub.id)
      .map(({ lineId, number }) => ({
        tub: tub.name,
        rack: tub.rack,
        line: lines.get(lineId) ?? tub.lineName,
        number,
      })),
  );
}

export function namedShort(desk: Desk, short: readonly Shortfall[]): { what: string; asked: number; there: number }[] {
  const lines = lineNames(desk);
  return short.map(({ lineId, asked, there }) => ({ what: lines.get(lineId) ?? 'animals', asked, there }));
}

function byTub(desk: Desk, parcels: readonly ParcelToPack[]): (NamedCatch & { readonly sales: readonly number[] })[] {
  return desk.store.tubs.tubs().flatMap(({ name }) => {
    const here = parcels.flatMap(({ sale, catches }) =>
      catches.filter(({ tub }) => tub === name).map((caught) => ({ ...caught, sale: sale.id })),
    );
    const [first] = here;
    if (first === undefined) return [];
    const number = here.reduce((sum, caught) => sum + caught.number, 0);
    return [{ tub: name, rack: first.rack, line: first.line, number, sales: here.map(({ sale }) => sale) }];
  });
}
