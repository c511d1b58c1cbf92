import { countedStock, type Instant, type Tub, type TubStock } from '../../src/domain/index.ts';

/** Members of an ensemble that is sure of a number, or spread evenly between two. */
export const membersBetween = (low: number, high = low): Float32Array =>
  Float32Array.from({ length: 128 }, (_, member) => low + ((high - low) * (member + 0.5)) / 128);

/** A tub's stock: so many saleable animals for sure, or between two numbers; null: not counted yet. */
export function stockOfTub(
  tub: Tub,
  saleable: number | readonly [number, number] | null,
  more: { readonly at: Instant; readonly offSale?: TubStock['offSale'] },
): TubStock {
  const offSale = more.offSale ?? null;
  if (saleable === null) return { tub, counted: null, saleable: null, range: null, members: null, offSale };
  const [low, high] = typeof saleable === 'number' ? [saleable, saleable] : saleable;
  const counted = { saleable: low, method: 'full' as const, at: more.at, by: 'wren' };
  return countedStock(tub, counted, membersBetween(low, high), offSale);
}
