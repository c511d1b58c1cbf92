import { hourMs, type Instant, msOf, plusMs } from '../day.ts';
import type { Goods, SaleItem } from './sale.ts';

/** Hours that moss is held after it was cut, rinsed, so that young and hitch-hikers are seen before it goes. Common practice, no source. */
export const holdHours = 48;

/** When the last pieces that came in have been held long enough; null: all have. */
export const heldUntil = (lastAddedAt: Instant | null, now: Instant): Instant | null =>
  lastAddedAt === null || msOf(now) - msOf(lastAddedAt) >= holdHours * hourMs
    ? null
    : plusMs(lastAddedAt, holdHours * hourMs);

/** Goods of an order that may carry the young of a line to somebody who keeps others: they would cross. */
export interface CarriedYoung {
  readonly goods: string;
  readonly line: string;
  /** The other lines that the buyer has of us. */
  readonly others: readonly string[];
}

/**
 * Goods of an order whose line is not the only one that the buyer has of us; none for a buyer of whom no other line is known.
 * @param lines names of the lines that were sold to the buyer, those of this order among them
 */
export const carriedYoung = (
  items: readonly SaleItem[],
  goods: readonly Goods[],
  lines: readonly string[],
): CarriedYoung[] =>
  items.flatMap((item) => {
    const line = item.of === 'goods' ? (goods.find(({ id }) => id === item.id)?.lineName ?? null) : null;
    const others = line === null ? [] : [...new Set(lines)].filter((name) => name !== line);
    return line === null || others.length === 0 ? [] : [{ goods: item.name, line, others }];
  });
