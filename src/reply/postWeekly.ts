import type { DispatchJudgement, LineStock, LocalDay, Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { type MissedWords, missedLines, postTitle } from './postLate.ts';
import { claimLines, type WatchWords, watchLines } from './postParcels.ts';
import { counted, dateWords, listWords, moneyWords, type Voice } from './voice.ts';

interface WeeklyPost {
  readonly day: LocalDay;
  readonly stocks: readonly LineStock[];
  readonly sold: {
    readonly sales: number;
    readonly parcels: number;
    readonly animals: number;
    readonly lines: readonly { readonly line: string; readonly number: number }[];
    readonly takingsMinor: number;
  };
  readonly claims: readonly Sale[];
  readonly watch: readonly WatchWords[];
  readonly dispatchDays: readonly DispatchJudgement[];
  readonly missed: MissedWords | null;
}

/** Stock per line, the week's sales, claims, tubs to watch, and when parcels may leave next week. */
export function weeklyCard(voice: Voice, post: WeeklyPost, lateMinutes = 0): Card {
  const { stocks, sold, dispatchDays } = post;
  const free = stocks.reduce((sum, stock) => sum + Math.max(0, stock.free), 0);
  return {
    title: `${postTitle(voice, 'Week', post.day, lateMinutes)}: ${counted(sold.parcels, 'parcel')} sent, ${free} free`,
    why: [
      ...missedLines(voice, post.missed),
      ...watchLines(voice, post.watch),
      ...claimLines(post.claims),
      `Sold: ${counted(sold.sales, 'sale')}, taken ${moneyWords(voice, sold.takingsMinor)}`,
      ...(sold.animals === 0 ? [] : [`Sent: ${listWords(sold.lines.map(({ line, number }) => `${number} ${line}`))}`]),
      ...stocks.slice(0, 5).map(stockLine),
      dispatchDays.length === 0
        ? 'Next week: no good dispatch day'
        : `Next week parcels may leave ${listWords(dispatchDays.map(({ day }) => dateWords(voice, day)))}`,
    ],
    controls: [
      [
        button('Stock', press('stock', {}), 'main'),
        button('New sale', press('sale-form', {})),
        button('The week', press('rota-week', {})),
      ],
    ],
  };
}

function stockLine({ line, tubs, uncounted, free, saleable, promised, promisedExtras }: LineStock): string {
  if (uncounted.length === tubs.length) return `${line.name}: not counted yet`;
  const open = promised + promisedExtras;
  return `${line.name}: ${free} free of ${saleable} saleable${open > 0 ? `, ${open} promised` : ''}`;
}
