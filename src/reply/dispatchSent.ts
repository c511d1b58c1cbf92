import type { Instant, LocalDay, Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { whenLine } from './change.ts';
import { catchWords } from './dispatchDay.ts';
import { orderLine } from './saleWords.ts';
import { undoButton } from './undoButton.ts';
import { dateWords, type Voice } from './voice.ts';

interface ParcelSent {
  readonly sale: Sale;
  readonly at: Instant;
  readonly tracking: string | null;
  readonly catches: readonly { readonly tub: string; readonly line: string; readonly number: number }[];
  readonly goods: readonly {
    readonly name: string;
    readonly number: number;
    readonly left: number;
    readonly keepAtLeast: number;
  }[];
  readonly missing: number;
  readonly trackingOnly: boolean;
  readonly entryId: number;
}

/** A parcel on its way: from which tubs, and when it is expected. */
export function sentCard(voice: Voice, by: string, sent: ParcelSent, expected: LocalDay): Card {
  const { sale, tracking, catches, goods, missing, trackingOnly, entryId } = sent;
  const tubs = new Set(catches.map(({ tub }) => tub)).size;
  return {
    title: trackingOnly ? `Parcel ${sale.id}: tracking number kept` : `Parcel ${sale.id}: sent`,
    why: [
      orderLine(sale),
      ...(catches.length > 0
        ? [`Out of ${tubs === 1 ? 'one tub' : `${tubs} tubs`}: ${catches.map(catchWords).join(', ')}`]
        : []),
      ...goods.map(({ name, number, left }) => `${number} ${name}, ${left} left`),
      ...(missing > 0 ? [`${missing} more left than the books held`] : []),
      ...(tracking === null ? [] : [`Tracking ${tracking}`]),
      `Expected ${dateWords(voice, expected)}`,
      whenLine(voice, by, sent.at),
    ],
    next: nextOf(sent),
    controls: [[button('Arrived', press('arrived-form', { sale: sale.id }), 'main'), undoButton(entryId)]],
  };
}

function nextOf({ missing, catches, goods, tracking }: ParcelSent): string {
  if (missing > 0) return `Count ${catches[0]?.tub ?? 'the tubs'} again`;
  const low = goods.find(({ left, keepAtLeast }) => left < keepAtLeast);
  if (low !== undefined) return `Buy ${low.name}: ${low.left} left, keep at least ${low.keepAtLeast}`;
  return tracking === null
    ? 'Add the tracking number with /dispatch sent when you have it'
    : 'Tell the buyer, with the tracking number';
}

/** Several parcels marked at once. */
export function sentManyCard(
  by: string,
  sent: readonly { readonly sale: Sale; readonly catches: ParcelSent['catches'] }[],
  notSent: readonly { readonly sale: number; readonly why: string }[],
): Card {
  return {
    title: `${sent.length === 1 ? '1 parcel' : `${sent.length} parcels`} sent`,
    why: [
      ...sent.map(({ sale, catches }) => `${sale.id}: ${catches.map(catchWords).join(', ') || 'no animals'}`),
      ...notSent.map(({ sale, why }) => `Not ${sale}: ${why}`),
      `logged by ${by}`,
    ],
    ...(notSent.length > 0 && { next: 'Mark the others one by one with /dispatch sent' }),
  };
}
