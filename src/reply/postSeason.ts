import type { ClosedWindow, LocalDay, Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { type Judged, reasonLines } from './dispatchReasons.ts';
import { postTitle } from './postLate.ts';
import { moveButtons } from './postParcels.ts';
import { counted, dateWords, listWords, monthDayWords, type Voice } from './voice.ts';
import { listButton, type WaitingList, waitingLines } from './waiting.ts';

interface SeasonEdge {
  readonly window: ClosedWindow;
  readonly edge: 'closes' | 'opens';
  readonly on: LocalDay;
  readonly inDays: number;
}

interface SeasonPost {
  readonly day: LocalDay;
  readonly edges: readonly SeasonEdge[];
  readonly inTrouble: readonly { readonly sale: Sale; readonly judged: Judged }[];
  readonly withoutDay: readonly Sale[];
  readonly lastDay: LocalDay | null;
  readonly waiting: readonly WaitingList[];
}

const mostSales = 5;

/** What closes or opens when, and the open sales that will not make it, each with its next good day. */
export function seasonPostCard(voice: Voice, post: SeasonPost, lateMinutes = 0): Card {
  const { edges, inTrouble, withoutDay, lastDay, waiting } = post;
  const closing = edges.some(({ edge }) => edge === 'closes');
  const more = inTrouble.length - mostSales;
  return {
    title: `${postTitle(voice, 'Season', post.day, lateMinutes)}: ${edges.slice(0, 2).map(edgeTitle).join(', ')}`,
    why: [
      ...edges.map((edge) => edgeLine(voice, edge)),
      ...(closing
        ? [
            lastDay === null
              ? 'No good dispatch day before the closing'
              : `Last good dispatch day: ${dateWords(voice, lastDay)}`,
          ]
        : []),
      ...(inTrouble.length === 0
        ? ['Every open sale can leave on its day']
        : [`${counted(inTrouble.length, 'open sale')} ${inTrouble.length === 1 ? 'needs' : 'need'} another day`]),
      ...inTrouble.slice(0, mostSales).map((one) => saleLine(voice, one)),
      ...(more > 0 ? [`and ${more} more: see /sale list`] : []),
      ...(withoutDay.length > 0 ? [`Without a day: ${listWords(withoutDay.map(({ id }) => `sale ${id}`))}`] : []),
      ...waitingLines(waiting),
    ],
    controls: [
      ...rowOf(moveButtons(voice, inTrouble, mostSales)),
      [
        ...(waiting.length > 0 ? [listButton({ id: 0 })] : []),
        button('Stock', press('stock', {})),
        button('Pack', press('pack', {})),
      ],
    ],
  };
}

const rowOf = <T>(row: readonly T[]): (readonly T[])[] => (row.length > 0 ? [row] : []);

const edgeTitle = ({ edge, inDays }: SeasonEdge): string =>
  `${edge} ${inDays === 1 ? 'tomorrow' : `in ${inDays} days`}`;

const edgeLine = (voice: Voice, { window, edge, on }: SeasonEdge): string =>
  `${window.name} (${monthDayWords(window.from)} to ${monthDayWords(window.to)}): first ${edge === 'closes' ? 'closed' : 'open'} day ${dateWords(voice, on)}`;

function saleLine(voice: Voice, { sale, judged }: { readonly sale: Sale; readonly judged: Judged }): string {
  const next = judged.next === null ? 'no good day within a year' : `next good day ${dateWords(voice, judged.next)}`;
  const [reason] = reasonLines(voice, judged.reasons, 1);
  return `Sale ${sale.id}, ${dateWords(voice, judged.day)}: ${reason ?? judged.verdict}; ${next}`;
}
