import type { Goods, Instant, PackingNeed } from '../domain/index.ts';
import type { Card } from './card.ts';
import { undoButton } from './undoButton.ts';
import { counted, dateWords, dayWords, listWords, loggedWords, momentWords, moneyWords, type Voice } from './voice.ts';

interface GoodsAnswer {
  readonly goods: Goods;
  readonly promised: number;
  readonly free: number;
  readonly low: boolean;
  readonly need: PackingNeed | null;
  readonly heldUntil: Instant | null;
  readonly isNew: boolean;
  readonly added: number;
  readonly near: readonly string[];
  readonly entryId: number | null;
}

/** Goods as they stand, after what was set about them. */
export function goodsCard(voice: Voice, by: string, answer: GoodsAnswer): Card {
  const { goods, promised, free, low, need, heldUntil, isNew, added, near, entryId } = answer;
  const changed = added > 0 ? ` (${added} added)` : added < 0 ? ` (${-added} taken out)` : '';
  return {
    title: `${goods.name}: ${need === null ? `${free} to sell` : `${goods.stock} there`}${low ? ', buy more' : ''}`,
    why: [
      `${goods.stock} there${changed}, ${promised} promised`,
      ...(need === null ? [] : [needLine(voice, goods, need)]),
      goods.priceMinor === null
        ? need === null
          ? 'Price not set'
          : 'No price: packing, not sold'
        : `${moneyWords(voice, goods.priceMinor)} each`,
      ...(goods.keepAtLeast > 0 ? [`Keep at least ${goods.keepAtLeast}`] : []),
      ...(goods.lineName === null ? [] : [`May carry young of ${goods.lineName}: not to keepers of another line`]),
      ...(heldUntil === null
        ? []
        : [`Hold what came in rinsed and apart until ${momentWords(voice, heldUntil)} (48 h)`]),
      ...(isNew && near.length > 0 ? [`New; near it there is ${listWords(near, 'or')}`] : []),
      ...(free < 0 ? [`${-free} more are promised than are there`] : []),
      ...(entryId === null ? [] : [loggedWords(voice, by)]),
    ],
    ...(low && { next: buyWords(voice, answer) }),
    ...(entryId !== null && { controls: [[undoButton(entryId)]] }),
  };
}

/** "Parcels up to Wed 17 Mar take 5: 2 too few from Tue 16 Mar". */
function needLine(
  voice: Voice,
  { stock, keepAtLeast }: Goods,
  { pieces, lastDay, shortOn, lowOn }: PackingNeed,
): string {
  if (lastDay === null) return 'No parcel ahead takes any';
  const taken = `Parcels up to ${dateWords(voice, lastDay)} take ${pieces}`;
  if (shortOn !== null) return `${taken}: too few from ${dayWords(voice, shortOn)}`;
  if (lowOn !== null) return `${taken}: under ${keepAtLeast} from ${dayWords(voice, lowOn)}`;
  return `${taken}: ${stock - pieces} left then`;
}

/** What to buy, and by when where a parcel waits for it. */
function buyWords(voice: Voice, { goods, free, need }: GoodsAnswer): string {
  const buy = Math.max(goods.keepAtLeast - free, need?.buy ?? 0);
  const by = need?.shortOn ?? null;
  if (by !== null && by <= voice.today) return `Buy at least ${counted(buy, 'piece')} today`;
  return by === null ? `Buy at least ${buy}` : `Buy at least ${counted(buy, 'piece')} before ${dateWords(voice, by)}`;
}
