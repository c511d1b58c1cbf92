import type { SaleItem } from './sale.ts';

/** The animals of an order: those it promises, and those that are sent with the extras. */
export function animalsOf({ items }: { readonly items: readonly SaleItem[] }): {
  readonly ordered: number;
  readonly sent: number;
} {
  const animals = items.filter(({ of }) => of === 'line');
  const ordered = animals.reduce((sum, { number }) => sum + number, 0);
  return { ordered, sent: animals.reduce((sum, { extras }) => sum + extras, ordered) };
}

/** Some of an order's animals of one line. */
export interface LinePart {
  readonly lineId: number;
  readonly name: string;
  readonly number: number;
}

/**
 * Animals missing from an order by line, in proportion to what was ordered of each, as nobody sorts the dead by line. Whole animals that
 * add up to `missing`, or to the order where more are said to be missing; a line that lacks none is left out.
 */
export function missingByLine(items: readonly SaleItem[], missing: number): LinePart[] {
  let leftOrdered = animalsOf({ items }).ordered;
  let left = Math.min(missing, leftOrdered);
  const parts: LinePart[] = [];
  for (const { of, id, name, number: ordered } of items) {
    if (of !== 'line') continue;
    const number = Math.round((left * ordered) / leftOrdered);
    left -= number;
    leftOrdered -= ordered;
    if (number > 0) parts.push({ lineId: id, name, number });
  }
  return parts;
}
