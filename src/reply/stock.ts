import type { LineStock, LocalDay, Tub, TubStock } from '../domain/index.ts';
import { press } from './acts.ts';
import { rangeOfAnimals } from './animals.ts';
import { button, type Card } from './card.ts';
import { stepButtons } from './setup.ts';
import { ageWords, counted, dateWords, someWords, type Voice } from './voice.ts';

/** A line's stock as it is foreseen on a day. */
export interface StockAhead {
  readonly day: LocalDay;
  readonly stock: LineStock;
}

/** One line's stock. */
export function lineStockCard(
  voice: Voice,
  stock: LineStock,
  on: LocalDay | null,
  ahead: StockAhead | null = null,
): Card {
  const { line, tubs, free } = stock;
  if (tubs.length === 0) return { title: `${line.name}: no tubs`, next: 'Add one first', controls: [stepButtons.tub] };
  if (stock.uncounted.length === tubs.length) {
    return {
      title: `${line.name}: not counted yet`,
      why: [`${counted(tubs.length, 'tub')}: ${someWords(stock.uncounted, 8)}`, ...promisedLine(stock)],
      next: `Count ${stock.uncounted[0]} with /count log`,
      controls: [[countButton(stock)]],
    };
  }
  return {
    title:
      free >= 0
        ? `${line.name}: ${free} free to promise${onWords(voice, on)}`
        : `${line.name}: ${-free} promised too many`,
    why: [
      ...aheadLine(on),
      `Saleable ${rangeOfAnimals(stock.saleable)} in ${tubsWords(stock)}, counted ${countAges(voice, tubs)}`,
      `Held back ${stock.heldBack} · promised ${stock.promised} + ${stock.promisedExtras} extras · off sale ${stock.offSale}`,
      ...(free >= 0 ? [`Free ${rangeOfAnimals(stock.freeRange)}; offer ${Math.floor(free / 10) * 10} in tens`] : []),
      ...(ahead === null
        ? []
        : [`By ${dateWords(voice, ahead.day)}: ${rangeOfAnimals(ahead.stock.freeRange)} free if nothing more is sold`]),
      ...(stock.uncounted.length > 0 ? [`Not counted yet: ${someWords(stock.uncounted, 8)}`] : []),
      ...(free < 0 ? ['More is promised than can be given without the breeders'] : []),
    ],
    table: tubs.map((tub) => tubRow(voice, tub)).slice(0, 25),
    ...nextCount(voice, stock),
    controls: [
      [
        button('New sale', press('sale-form', {}), 'main'),
        countButton(stock),
        button('Forecast', press('forecast', { line: line.id })),
      ],
    ],
  };
}

/** Every line on one screen. */
export function stockCard(
  voice: Voice,
  stocks: readonly LineStock[],
  on: LocalDay | null = null,
  ahead: StockAhead | null = null,
): Card {
  const [only] = stocks;
  if (only === undefined) return { title: 'No lines yet', next: 'Add one first', controls: [stepButtons.line] };
  if (stocks.length === 1) return lineStockCard(voice, only, on, ahead);
  const free = stocks.reduce((sum, stock) => sum + Math.max(0, stock.free), 0);
  const short = stocks.filter((stock) => stock.free < 0);
  const uncounted = stocks.flatMap((stock) => stock.uncounted);
  const isUncounted = stocks.every((stock) => stock.uncounted.length === stock.tubs.length);
  return {
    title: isUncounted ? 'Stock: not counted yet' : `Stock: ${free} free to promise${onWords(voice, on)}`,
    table: ['line      free  sale  kept prom  off', ...stocks.map(lineRow)],
    why: [
      ...aheadLine(on),
      ...short.map((stock) => `${stock.line.name}: ${-stock.free} promised too many`),
      ...(uncounted.length > 0 ? [`Not counted yet: ${someWords(uncounted, 8)}`] : []),
      'sale: saleable · kept: breeders · prom: promised with extras',
    ],
    ...(uncounted[0] !== undefined && { next: `Count ${uncounted[0]} with /count log` }),
    controls: [
      [
        button('New sale', press('sale-form', {}), 'main'),
        button('Count a tub', press('pick-tub', { purpose: 'count' })),
      ],
    ],
  };
}

/** Widths of free, saleable, kept, promised, off. */
const columnWidths = [4, 6, 6, 5, 5] as const;

function lineRow(stock: LineStock): string {
  const figures =
    stock.uncounted.length === stock.tubs.length
      ? `  ${stock.tubs.length === 0 ? 'no tubs' : 'not counted yet'}`
      : [stock.free, stock.saleable.median, stock.heldBack, stock.promised + stock.promisedExtras, stock.offSale]
          .map((n, index) => String(n).padStart(columnWidths[index] ?? 5))
          .join('');
  return `${stock.line.name.slice(0, 9).padEnd(10)}${figures}`;
}

function tubRow(voice: Voice, { tub, range, counted: count, offSale }: TubStock): string {
  const state = offSale !== null ? ', off sale' : tub.role === 'apart' ? ', apart' : '';
  if (range === null || count === null) return `${tub.name.padEnd(6)} not counted yet${state}`;
  const between = `${range.low}–${range.high}`;
  return `${tub.name.padEnd(6)}${String(range.median).padStart(4)} ${between.padEnd(8)} ${ageWords(voice, count.at)}${state}`;
}

/** The count that would help most; nothing when none would tell much. */
function nextCount(voice: Voice, stock: LineStock): { next?: string } {
  if (stock.free < 0) return { next: 'Count again, or move a sale to a later day' };
  const [uncounted] = stock.uncounted;
  if (uncounted !== undefined) return { next: `Count ${uncounted}, it was not counted yet` };
  const { sharpest } = stock;
  if (sharpest === null) return {};
  const at = stock.tubs.find(({ tub }) => tub.id === sharpest.tub.id)?.counted?.at;
  if (at !== undefined && ageWords(voice, at) === 'today') return {};
  return { next: `Count ${sharpest.tub.name} in full, it would narrow this most` };
}

const promisedLine = ({ promised, promisedExtras }: LineStock): string[] =>
  promised === 0 ? [] : [`Promised ${promised} + ${promisedExtras} extras`];

const countButton = (stock: LineStock) => {
  const tub = toCount(stock);
  return tub === undefined
    ? button('Count a tub', press('pick-tub', { purpose: 'count' }))
    : button(`Count ${tub.name}`, press('count-form', { tub: tub.id }));
};

/** The tub never counted, else the one whose count would tell most, else the one counted longest ago. */
function toCount({ tubs, uncounted, sharpest }: LineStock): Tub | undefined {
  const [never] = uncounted;
  if (never !== undefined) return tubs.find(({ tub }) => tub.name === never)?.tub;
  if (sharpest !== null) return sharpest.tub;
  const [oldest] = [...tubs].sort((a, b) => (a.counted?.at ?? '').localeCompare(b.counted?.at ?? ''));
  return oldest?.tub;
}

function countAges(voice: Voice, tubs: readonly TubStock[]): string {
  const ages = tubs.flatMap(({ counted: count }) => (count === null ? [] : [count.at])).sort();
  const [newest, oldest] = [ages.at(-1), ages[0]];
  if (newest === undefined || oldest === undefined) return 'never';
  const [from, to] = [ageWords(voice, newest), ageWords(voice, oldest)];
  return from === to ? from : `${from.replace(/ days ago$/, '')} to ${to}`;
}

const onWords = (voice: Voice, on: LocalDay | null): string => (on === null ? '' : ` on ${dateWords(voice, on)}`);

const aheadLine = (on: LocalDay | null): string[] =>
  on === null ? [] : ['As foreseen by season and counts, if nothing more is sold until then'];

/** "6 tubs", "2 of 6 tubs" where not all are counted. */
const tubsWords = ({ tubs, uncounted }: LineStock): string =>
  uncounted.length === 0
    ? counted(tubs.length, 'tub')
    : `${tubs.length - uncounted.length} of ${counted(tubs.length, 'tub')}`;
