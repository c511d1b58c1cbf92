import {
  allocateDay,
  type Catch,
  type Demand,
  type ParcelCatches,
  type SpareTub,
  spareOf,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import type { Desk } from '../desk.ts';
import { stockOf } from '../tubs/stock.ts';
import { caughtAlready } from './caught.ts';

/** Animals that a sale takes from the tubs, extras included. */
export const demandsOf = ({ items }: BookedSale): Demand[] =>
  items.flatMap((item) => (item.of === 'line' ? [{ lineId: item.id, number: item.number + item.extras }] : []));

/** What each tub of the lines that are wanted can spare now: breeders kept, tubs off sale and apart left out. */
function spareTubs(desk: Desk, wanted: readonly Demand[]): SpareTub[] {
  const lines = desk.store.tubs.lines().filter(({ id }) => wanted.some(({ lineId }) => lineId === id));
  return lines.flatMap((line) =>
    stockOf(desk, line).tubs.map((stock) => ({
      tubId: stock.tub.id,
      name: stock.tub.name,
      rack: stock.tub.rack,
      lineId: line.id,
      spare: spareOf(stock, line),
      saleable: stock.saleable ?? 0,
      netLitres: stock.tub.netLitres,
    })),
  );
}

/** Where to catch the animals of a day; what was ticked as caught stays as it was caught, and the others are planned around it. */
export function planCatches(desk: Desk, sales: readonly BookedSale[]): Map<number, ParcelCatches> {
  const caught = new Map(sales.map((sale) => [sale.id, caughtAlready(desk, sale, demandsOf(sale))]));
  const inBags = sales.filter(({ id, sentAt }) => sentAt === null && caught.get(id) !== undefined);
  const out = inBags.flatMap(({ id }) => caught.get(id) ?? []).map((one) => ({ ...one, number: -one.number }));
  const others = sales.filter(({ id }) => caught.get(id) === undefined);
  const planned = planAround(desk, putBack(spareTubs(desk, others.flatMap(demandsOf)), out), others);
  for (const { id } of inBags) planned.set(id, { saleId: id, catches: caught.get(id) ?? [], short: [] });
  return planned;
}

/**
 * Where to catch the animals of parcels that nobody ticked. Parcels that have left are planned along with the others as if their animals were still there,
 * so that the list that was caught by in the evening holds while the parcels leave one after the other in the morning; where the books
 * have changed since, the others are planned anew from what is there.
 */
function planAround(desk: Desk, tubs: readonly SpareTub[], sales: readonly BookedSale[]): Map<number, ParcelCatches> {
  const left = sales.filter(({ sentAt }) => sentAt !== null);
  const gone = new Map(left.map((sale) => [sale.id, desk.store.parcels.parcels(sale.id).at(-1)?.catches ?? []]));
  const parcels = [...sales].sort(inOrder).map((sale) => ({ saleId: sale.id, demands: demandsOf(sale) }));
  const whole = allocateDay(parcels, putBack(tubs, [...gone.values()].flat()));
  const holds = whole.every(({ saleId, catches }) => !gone.has(saleId) || same(catches, gone.get(saleId) ?? []));
  const planned = holds
    ? whole
    : allocateDay(
        parcels.filter(({ saleId }) => !gone.has(saleId)),
        tubs,
      );
  return new Map(planned.filter(({ saleId }) => !gone.has(saleId)).map((plan) => [plan.saleId, plan]));
}

/** First paid, first packed: where animals are short, those who paid first get theirs. */
export const inOrder = (a: BookedSale, b: BookedSale): number =>
  (a.paidAt ?? '9999').localeCompare(b.paidAt ?? '9999') || a.id - b.id;

const putBack = (tubs: readonly SpareTub[], caught: readonly Catch[]): SpareTub[] =>
  tubs.map((tub) => {
    const back = caught.filter(({ tubId }) => tubId === tub.tubId).reduce((sum, { number }) => sum + number, 0);
    return { ...tub, spare: tub.spare + back, saleable: tub.saleable + back };
  });

function same(a: readonly Catch[], b: readonly Catch[]): boolean {
  const words = (catches: readonly Catch[]): string =>
    catches
      .map(({ tubId, number }) => `${tubId}:${number}`)
      .sort()
      .join(' ');
  return words(a) === words(b);
}

/**
 * Where animals came from that have left although the books say they were not there to spare: what is spare first, then breeders and
 * tubs off sale, the fullest tub first; what no tub holds by the books is missing.
 */
export function catchRegardless(
  desk: Desk,
  demands: readonly Demand[],
): { readonly catches: Catch[]; readonly missing: number } {
  const catches: Catch[] = [];
  let missing = 0;
  for (const { lineId, number } of demands) {
    const line = desk.store.tubs.lines().find(({ id }) => id === lineId);
    const tubs = line === undefined ? [] : stockOf(desk, line).tubs;
    let left = number;
    const take = (tubId: number, most: number): void => {
      const taken = Math.min(left, most);
      if (taken > 0) catches.push({ tubId, lineId, number: taken });
      left -= Math.max(0, taken);
    };
    const fullest = [...tubs].sort((a, b) => (b.saleable ?? 0) - (a.saleable ?? 0));
    for (const stock of fullest) if (line !== undefined) take(stock.tub.id, spareOf(stock, line));
    for (const stock of fullest) {
      if (line !== undefined) take(stock.tub.id, (stock.saleable ?? 0) - spareOf(stock, line));
    }
    missing += left;
  }
  return { catches: together(catches), missing };
}

/** One catch a tub. */
function together(catches: readonly Catch[]): Catch[] {
  const byTub = new Map<number, Catch>();
  for (const caught of catches) {
    const before = byTub.get(caught.tubId)?.number ?? 0;
    byTub.set(caught.tubId, { ...caught, number: before + caught.number });
  }
  return [...byTub.values()];
}
