import type { ChartData, DispatchJudgement, Line, LineStock, LocalDay, Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { rangeOfAnimals } from './animals.ts';
import { button, type Card } from './card.ts';
import { type MissedWords, missedLines, postTitle } from './postLate.ts';
import { claimLines, type WatchWords, watchLines } from './postParcels.ts';
import { counted, dateWords, listWords, moneyWords, type Voice } from './voice.ts';
import { type WaitingList, waitingLines } from './waiting.ts';

interface StockWeeks {
  readonly line: Line;
  readonly weeks: readonly { readonly day: LocalDay; readonly saleable: number }[];
}

interface WeeklyPost {
  readonly day: LocalDay;
  readonly stocks: readonly LineStock[];
  readonly past: readonly StockWeeks[];
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
  readonly waiting: readonly WaitingList[];
  readonly missed: MissedWords | null;
}

/** Stock per line, the week's sales, claims, tubs to watch, and when parcels may leave next week. */
export function weeklyCard(voice: Voice, post: WeeklyPost, lateMinutes = 0): Card {
  const { stocks, sold, dispatchDays } = post;
  const free = stocks.reduce((sum, stock) => sum + Math.max(0, stock.free), 0);
  const chart = stockChart(voice, post.past);
  return {
    title: `${postTitle(voice, 'Week', post.day, lateMinutes)}: ${counted(sold.parcels, 'parcel')} sent, ${free} free`,
    why: [
      ...missedLines(voice, post.missed),
      ...watchLines(voice, post.watch),
      ...claimLines(post.claims),
      `Sold: ${counted(sold.sales, 'sale')}, taken ${moneyWords(voice, sold.takingsMinor)}`,
      ...(sold.animals === 0 ? [] : [`Sent: ${listWords(sold.lines.map(({ line, number }) => `${number} ${line}`))}`]),
      ...stocks.slice(0, 5).map(stockLine),
      ...waitingLines(post.waiting),
      dispatchDays.length === 0
        ? 'Next week: no good dispatch day'
        : `Next week parcels may leave ${listWords(dispatchDays.map(({ day }) => dateWords(voice, day)))}`,
    ],
    ...(chart !== null && { chart }),
    controls: [
      [
        button('Stock', press('stock', {}), 'main'),
        button('New sale', press('sale-form', {})),
        button('The week', press('rota-week', {})),
        button('Money', press('money-show', { month: voice.today.slice(0, 7) })),
      ],
    ],
  };
}

function stockLine({ line, tubs, uncounted, free, saleable, promised, promisedExtras }: LineStock): string {
  if (uncounted.length === tubs.length) return `${line.name}: not counted yet`;
  const open = promised + promisedExtras;
  return `${line.name}: ${free} free of ${rangeOfAnimals(saleable)} saleable${open > 0 ? `, ${open} promised` : ''}`;
}

/** A chart tells at most so many lines apart. */
const mostLines = 8;

/** Saleable animals line by line; null where no line was counted long enough ago to show a course. */
function stockChart(voice: Voice, past: readonly StockWeeks[]): ChartData | null {
  const known = past.filter(({ weeks }) => weeks.length > 0);
  if (!known.some(({ weeks }) => weeks.length > 1)) return null;
  const lastOf = ({ weeks }: StockWeeks): number => weeks.at(-1)?.saleable ?? 0;
  const shown = known.toSorted((a, b) => lastOf(b) - lastOf(a)).slice(0, mostLines);
  return {
    title: shown.length < known.length ? `Saleable, ${mostLines} of ${known.length} lines` : 'Saleable by line',
    unit: 'animals',
    zone: voice.zone,
    fromZero: true,
    series: shown.map(({ line, weeks }) => ({
      name: line.name,
      kind: 'line',
      points: weeks.map(({ day, saleable }) => ({ at: day, value: saleable })),
    })),
  };
}
