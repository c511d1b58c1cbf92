import { fail, ok, type Result } from '../result.ts';
import type { Catch } from './sale.ts';

/** A tub that may be caught from: not off sale, not retired. */
export interface SpareTub {
  readonly tubId: number;
  readonly name: string;
  readonly rack: string;
  readonly lineId: number;
  /** Saleable less the breeders held back, animals. */
  readonly spare: number;
}

/** Animals of a line that a parcel needs, extras included. */
export interface Demand {
  readonly lineId: number;
  readonly number: number;
}

/** More asked of a line than its tubs can spare. */
export interface Shortfall {
  readonly lineId: number;
  readonly asked: number;
  readonly there: number;
}

/** A parcel's catches, and what it lacks; a line that is short is not caught at all, so that others may have it. */
export interface ParcelCatches {
  readonly saleId: number;
  readonly catches: readonly Catch[];
  readonly short: readonly Shortfall[];
}

/**
 * From which tubs to catch a number of one line with the fewest nettings: one tub where one has enough (one in `netted`
 * first, then the one with most to spare), otherwise the fullest first. Breeders stay, as only what is spare is caught.
 */
export function allocate(
  demand: Demand,
  tubs: readonly SpareTub[],
  netted: ReadonlySet<number> = new Set(),
): Result<readonly Catch[], Shortfall> {
  const { lineId, number } = demand;
  const mine = tubs.filter((tub) => tub.lineId === lineId && tub.spare > 0).sort(fullestFirst);
  const there = mine.reduce((sum, tub) => sum + tub.spare, 0);
  if (there < number) return fail({ lineId, asked: number, there });
  const enough = mine.filter((tub) => tub.spare >= number);
  const one = enough.find((tub) => netted.has(tub.tubId)) ?? enough[0];
  if (one !== undefined) return ok(number > 0 ? [{ tubId: one.tubId, lineId, number }] : []);
  const catches: Catch[] = [];
  let left = number;
  for (const tub of mine) {
    if (left === 0) break;
    const taken = Math.min(left, tub.spare);
    catches.push({ tubId: tub.tubId, lineId, number: taken });
    left -= taken;
  }
  return ok(catches);
}

/** The catches of a whole day, parcel by parcel in the order given; what one takes the next cannot have. */
export function allocateDay(
  parcels: readonly { readonly saleId: number; readonly demands: readonly Demand[] }[],
  tubs: readonly SpareTub[],
): ParcelCatches[] {
  const spare = new Map(tubs.map((tub) => [tub.tubId, tub.spare]));
  const netted = new Set<number>();
  return parcels.map(({ saleId, demands }) => {
    const catches: Catch[] = [];
    const short: Shortfall[] = [];
    for (const demand of together(demands)) {
      const now = tubs.map((tub) => ({ ...tub, spare: spare.get(tub.tubId) ?? 0 }));
      const found = allocate(demand, now, netted);
      if (!found.ok) {
        short.push(found.fault);
        continue;
      }
      for (const caught of found.value) {
        spare.set(caught.tubId, (spare.get(caught.tubId) ?? 0) - caught.number);
        netted.add(caught.tubId);
        catches.push(caught);
      }
    }
    return { saleId, catches, short };
  });
}

/** One demand a line: two rows of the same line in an order are caught together. */
function together(demands: readonly Demand[]): Demand[] {
  const sums = new Map<number, number>();
  for (const { lineId, number } of demands) sums.set(lineId, (sums.get(lineId) ?? 0) + number);
  return [...sums].map(([lineId, number]) => ({ lineId, number }));
}

const fullestFirst = (a: SpareTub, b: SpareTub): number =>
  b.spare - a.spare || byName(a.rack, b.rack) || byName(a.name, b.name);

const byName = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true });
