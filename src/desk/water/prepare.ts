import { type Mix, type Tub, waterIn } from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';

/** New water for the tubs of a rack. */
export interface WaterToPrepare {
  readonly rack: string;
  readonly litres: number;
  /** Buckets of the set size that hold it. */
  readonly buckets: number;
  readonly bucketLitres: number;
  /** Null: tap water as it is. */
  readonly mix: Mix | null;
}

/** The water for the changes given, by rack in the order of the first tub of each. */
export function waterToPrepare(
  desk: Desk,
  changes: readonly { readonly tub: Tub; readonly litres: number }[],
): WaterToPrepare[] {
  const business = businessOf(desk);
  const { recipeFor } = waterIn(business);
  const litresOf = new Map<string, number>();
  for (const { tub, litres } of changes) litresOf.set(tub.rack, (litresOf.get(tub.rack) ?? 0) + litres);
  return [...litresOf].map(([rack, sum]) => {
    const litres = Math.round(sum * 10) / 10;
    return {
      rack,
      litres,
      buckets: Math.ceil(litres / business.bucketLitres - 1e-9),
      bucketLitres: business.bucketLitres,
      mix: recipeFor === null || litres < 1 ? null : recipeFor(litres),
    };
  });
}
