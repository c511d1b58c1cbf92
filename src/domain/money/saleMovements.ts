import { dayOf, type Instant, type LocalDay } from '../day.ts';
import type { SaleItem } from '../sales/sale.ts';
import { feeMinor, type OutletFees } from './fees.ts';
import { itemShares } from './itemShares.ts';
import type { Movement, Pot, SoldAnimals } from './movement.ts';
import { splitMinor } from './split.ts';

/** A sale as far as its money goes. */
export interface MoneySale {
  readonly id: number;
  readonly items: readonly SaleItem[];
  /** Agreed for the items, minor units; null: not set, then it is what came less the postage. */
  readonly priceMinor: number | null;
  readonly postageMinor: number;
  /** Of its selling place as they were when it was booked; null: sold elsewhere. */
  readonly fees: OutletFees | null;
  /** What came, oldest first. */
  readonly payments: readonly { readonly amountMinor: number; readonly at: Instant }[];
  /** The refund that settled a claim; null: none. */
  readonly refund: { readonly amountMinor: number; readonly at: Instant } | null;
  readonly sentAt: Instant | null;
  readonly cancelledAt: Instant | null;
}

export interface SaleMoney {
  readonly movements: readonly Movement[];
  readonly sold: readonly SoldAnimals[];
  /** Whether the price of every item when it was sold is known; where it is not, its part of the price is a guess by number. */
  readonly isKnown: boolean;
}

interface Part {
  readonly pot: Pot;
  /** Of the total, minor units. */
  readonly dueMinor: number;
}

/**
 * All that a sale moved. Each payment is shared among the items and the postage in proportion to what is still open of them, so that the
 * parts of all payments add up to the parts of the total; the fee follows the payments. A refund is the lines'. What was paid for a cancelled
 * sale is the buyer's again, and the place gives its fee back (common practice, no source).
 */
export function saleMoney(sale: MoneySale, zone: string): SaleMoney {
  const paidMinor = sale.payments.reduce((sum, { amountMinor }) => sum + amountMinor, 0);
  // Who paid more than was agreed paid it for the items.
  const priceMinor = Math.max(sale.priceMinor ?? 0, paidMinor - sale.postageMinor, 0);
  const isEmpty = sale.items.length === 0;
  const { minor, isKnown } = itemShares(isEmpty ? 0 : priceMinor, sale.items);
  const parts: Part[] = [
    ...sale.items.map(({ of, id, name }, index) => ({ pot: { of, id, name }, dueMinor: minor[index] ?? 0 })),
    { pot: { of: 'postage' }, dueMinor: sale.postageMinor + (isEmpty ? priceMinor : 0) },
  ];
  const came = payments(sale, parts, zone);
  const refunded = refund(sale, parts, zone);
  const { cancelledAt } = sale;
  const back = cancelledAt === null ? [] : givenBack(came, dayOf(cancelledAt, zone));
  return { movements: [...came, ...refunded, ...back], sold: soldAnimals(sale, zone), isKnown };
}

function payments(sale: MoneySale, parts: readonly Part[], zone: string): Movement[] {
  const movements: Movement[] = [];
  let open = parts.map(({ dueMinor }) => dueMinor);
  const taken = { itemsMinor: 0, postageMinor: 0 };
  let feesMinor = 0;
  for (const { amountMinor, at } of sale.payments) {
    const day = dayOf(at, zone);
    const each = splitMinor(amountMinor, open);
    open = open.map((due, index) => due - (each[index] ?? 0));
    const postageMinor = each.at(-1) ?? 0;
    taken.itemsMinor += amountMinor - postageMinor;
    taken.postageMinor += postageMinor;
    movements.push(...partMovements('taken', each, parts, day, sale.id));
    if (sale.fees === null) continue;
    const feeNow = feeMinor(sale.fees, taken) - feesMinor;
    feesMinor += feeNow;
    const charged = sale.fees.onPostage || postageMinor === amountMinor ? each : [...each.slice(0, -1), 0];
    movements.push(...partMovements('fee', splitMinor(feeNow, charged), parts, day, sale.id));
  }
  return movements;
}

/** A refund is for animals: it is shared among the lines of the sale by what they brought. */
function refund(sale: MoneySale, parts: readonly Part[], zone: string): Movement[] {
  if (sale.refund === null) return [];
  const { amountMinor, at } = sale.refund;
  const hasLines = parts.some(({ pot }) => pot.of === 'line');
  const lines = parts.filter(({ pot }) => pot.of === 'line' || !hasLines);
  const each = splitMinor(
    amountMinor,
    lines.map(({ dueMinor }) => dueMinor),
  );
  return partMovements('refund', each, lines, dayOf(at, zone), sale.id);
}

function givenBack(came: readonly Movement[], day: LocalDay): Movement[] {
  return came.map((movement) =>
    movement.what === 'taken' ? { ...movement, what: 'refund', day } : { ...movement, minor: -movement.minor, day },
  );
}

const partMovements = (
  what: Movement['what'],
  each: readonly number[],
  parts: readonly Part[],
  day: LocalDay,
  saleId: number,
): Movement[] =>
  parts.flatMap(({ pot }, index) => {
    const minor = each[index] ?? 0;
    return minor === 0 ? [] : [{ what, minor, day, pot, saleId, costKind: null }];
  });

/** Animals count as sold on the day on which the sale was paid, or sent without; those that cost nothing were not sold. */
function soldAnimals(sale: MoneySale, zone: string): SoldAnimals[] {
  const at = paidInFullAt(sale) ?? sale.sentAt;
  if (at === null || sale.priceMinor === 0) return [];
  const on = (moment: Instant, sign: 1 | -1): SoldAnimals[] =>
    sale.items.flatMap(({ of, id, name, number }) =>
      of === 'line' ? [{ lineId: id, name, number: sign * number, day: dayOf(moment, zone) }] : [],
    );
  return [...on(at, 1), ...(sale.cancelledAt === null ? [] : on(sale.cancelledAt, -1))];
}

function paidInFullAt({ payments: came, priceMinor, postageMinor }: MoneySale): Instant | null {
  const totalMinor = priceMinor === null ? 0 : priceMinor + postageMinor;
  let sumMinor = 0;
  for (const { amountMinor, at } of came) {
    sumMinor += amountMinor;
    if (sumMinor >= totalMinor) return at;
  }
  return null;
}
