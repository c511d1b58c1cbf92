import type { LocalDay } from '../day.ts';
import type { Goods } from './sale.ts';

/** What goods that are not sold go into parcels by: one a parcel, or one a bag of it. */
export type PackingUse = 'parcel' | 'bag';

const boxWords = /\b(?:box|boxes|carton|cartons)\b/i;
const bagWords = /\b(?:bag|bags)\b/i;

/**
 * What a parcel takes of goods: a box, or as many bags as its plan has, known by their names; null: nothing. What has a price is sold and
 * goes with its order instead. Our choice: people name them so.
 */
export function packingUseOf({ name, priceMinor }: Pick<Goods, 'name' | 'priceMinor'>): PackingUse | null {
  if (priceMinor !== null) return null;
  if (boxWords.test(name)) return 'parcel';
  return bagWords.test(name) ? 'bag' : null;
}

/** How far goods last for the parcels ahead. */
export interface PackingNeed {
  /** Pieces that all of them take, and the last day that one leaves; null: no parcel takes any. */
  readonly pieces: number;
  readonly lastDay: LocalDay | null;
  /** The first day whose parcels can't all have theirs; null: they last. */
  readonly shortOn: LocalDay | null;
  /** The first day after which fewer are left than are to be kept; null: none. */
  readonly lowOn: LocalDay | null;
  /** Pieces to buy so that as many are left as are to be kept; 0: none. */
  readonly buy: number;
}

/** @param parcels pieces that each parcel ahead takes on its day, in any order */
export function packingNeed(
  { stock, keepAtLeast }: Pick<Goods, 'stock' | 'keepAtLeast'>,
  parcels: readonly { readonly day: LocalDay; readonly pieces: number }[],
): PackingNeed {
  const days = [...new Set(parcels.filter(({ pieces }) => pieces > 0).map(({ day }) => day))].sort();
  const upTo = (last: LocalDay): number =>
    parcels.reduce((sum, { day, pieces }) => (day <= last ? sum + pieces : sum), 0);
  const lastDay = days.at(-1) ?? null;
  const pieces = lastDay === null ? 0 : upTo(lastDay);
  return {
    pieces,
    lastDay,
    shortOn: days.find((day) => upTo(day) > stock) ?? null,
    lowOn: days.find((day) => stock - upTo(day) < keepAtLeast) ?? null,
    buy: Math.max(0, keepAtLeast + pieces - stock),
  };
}
