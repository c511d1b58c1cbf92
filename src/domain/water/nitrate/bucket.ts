/** Parts of a litre in which a bucket is filled, coarsest first: halves, tenths, hundredths. */
const partsOfLitre = [2, 10, 100] as const;

/**
 * The litres that one change may be, ascending: all half litres between the bounds; in a tub too small for any, tenths or hundredths.
 * Never outside the bounds.
 */
export function bucketSizes(leastLitres: number, mostLitres: number): number[] {
  for (const parts of partsOfLitre) {
    const from = Math.ceil(leastLitres * parts - 1e-9);
    const to = Math.floor(mostLitres * parts + 1e-9);
    if (from <= to) return Array.from({ length: to - from + 1 }, (_, index) => (from + index) / parts);
  }
  return [mostLitres];
}
