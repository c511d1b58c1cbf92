import type { LineStock, LocalDay, TubStock } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { stepButtons } from './setup.ts';
import { ageWords, counted, dateWords, someWords, type Voice } from './voice.ts';

/** One line's stock. */
export function lineStockCard(voice: Voice, stock: LineStock, on: LocalDay | null): Card {
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
      `Saleable ${stock.saleable} in ${tubsWords(stock)}, counted ${countAges(voice, tubs)}`,
      `Held back ${stock.heldBack} · promised ${stock.promised} + ${stock.promisedExtras} extras · off sale ${stock.offSale}`,
      ...(stock.uncounted.length > 0 ? [`Not counted yet: ${someWords(stock.uncounted, 8)}`] : []),
      ...(free < 0 ? ['More is promised than can be given without the breeders'] : []),
    ],
    table: tubs.map((tub) => tubRow(voice, tub)).slice(0, 25),
    ...nextCount(voice, stock),
    controls: [[button('New sale', press('sale-form', {}), 'main'), countButton(stock)]],
  };
}

/** Every line on one screen. */
export function stockCard(voice: Voice, stocks: readonly LineStock[], on: LocalDay | null = null): Card {
  const [only] = stocks;
  if (only === undefined) return { title: 'No lines yet', next: 'Add one first', controls: [stepButtons.line] };
  if (stocks.length === 1) return lineStockCard(voice, only, on);
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
      : [stock.free, stock.saleable, stock.heldBack, stock.promised + stock.promisedExtras, stock.offSale]
          .map((n, index) => String(n).padStart(columnWidths[index] ?? 5))
          .join('');
  return `${stock.line.name.slice(0, 9).padEnd(10)}${figures}`;
}

function tubRow(voice: Voice, { tub, saleable, counted: count, offSale }: TubStock): string {
  const state = offSale !== null ? ', off sale' : tub.role === 'apart' ? ', apart' : '';
  if (saleable === null || count === null) return `${tub.name.padEnd(6)} not counted yet${state}`;
  return `${tub.name.padEnd(6)}${String(saleable).padStart(4)}  ${ageWords(voice, count.at)}${state}`;
}

/** The count that would help most; nothing when all were counted today. */
function nextCount(voice: Voice, stock: LineStock): { next?: string } {
  if (stock.free < 0) return { next: 'Count again, or move a sale to a later day' };
  const oldest = oldestCounted(stock);
  const at = stock.tubs.find(({ tub }) => tub.name === oldest)?.counted?.at;
  if (at === undefined) return { next: `Count ${oldest}, it was not counted yet` };
  return ageWords(voice, at) === 'today' ? {} : { next: `Count ${oldest}, its count is the oldest` };
}

const promisedLine = ({ promised, promisedExtras }: LineStock): string[] =>
  promised === 0 ? [] : [`Promised ${promised} + ${promisedExtras} extras`];

const countButton = (stock: LineStock) => {
  const tub = stock.tubs.find(({ tub: { name } }) => name === oldestCounted(stock))?.tub;
  return tub === undefined
    ? button('Count a tub', press('pick-tub', { purpose: 'count' }))
    : button(`Count ${tub.name}`, press('count-form', { tub: tub.id }));
};

/** The tub never counted, or counted longest ago. */
function oldestCounted(stock: LineStock): string {
  const [first] = [...stock.tubs].sort((a, b) => (a.counted?.at ?? '').localeCompare(b.counted?.at ?? ''));
  return first?.tub.name ?? '';
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
  on === null ? [] : ['By the animals of today; births until then are not counted in'];

/** "6 tubs", "2 of 6 tubs" where not all are counted. */
const tubsWords = ({ tubs, uncounted }: LineStock): string =>
  uncounted.length === 0
    ? counted(tubs.length, 'tub')
    : `${tubs.length - uncounted.length} of ${counted(tubs.length, 'tub')}`;
