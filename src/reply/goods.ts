import type { Goods } from '../domain/index.ts';
import type { Card } from './card.ts';
import { undoButton } from './undoButton.ts';
import { listWords, loggedWords, moneyWords, type Voice } from './voice.ts';

interface GoodsAnswer {
  readonly goods: Goods;
  readonly promised: number;
  readonly free: number;
  readonly low: boolean;
  readonly isNew: boolean;
  readonly added: number;
  readonly near: readonly string[];
  readonly entryId: number | null;
}

/** Goods as they stand, after what was set about them. */
export function goodsCard(voice: Voice, by: string, answer: GoodsAnswer): Card {
  const { goods, promised, free, low, isNew, added, near, entryId } = answer;
  const changed = added > 0 ? ` (${added} added)` : added < 0 ? ` (${-added} taken out)` : '';
  return {
    title: `${goods.name}: ${free} to sell${low ? ', buy more' : ''}`,
    why: [
      `${goods.stock} there${changed}, ${promised} promised`,
      goods.priceMinor === null ? 'Price not set' : `${moneyWords(voice, goods.priceMinor)} each`,
      ...(goods.keepAtLeast > 0 ? [`Keep at least ${goods.keepAtLeast}`] : []),
      ...(goods.lineName === null ? [] : [`May carry young of ${goods.lineName}: not to keepers of another line`]),
      ...(isNew && near.length > 0 ? [`New; near it there is ${listWords(near, 'or')}`] : []),
      ...(free < 0 ? [`${-free} more are promised than are there`] : []),
      ...(entryId === null ? [] : [loggedWords(voice, by)]),
    ],
    ...(low && { next: `Buy at least ${goods.keepAtLeast - free}` }),
    ...(entryId !== null && { controls: [[undoButton(entryId)]] }),
  };
}
