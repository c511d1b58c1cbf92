import type { Refusal, Sale, SaleState } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card, type ControlRow } from './card.ts';
import { type Judged, reasonLines } from './dispatchReasons.ts';
import { moveButton } from './sale.ts';
import { itemsLine } from './saleWords.ts';
import { counted, dateWords, type Voice } from './voice.ts';

export interface SaleInList {
  readonly sale: Sale;
  readonly state: SaleState;
  readonly judged: Judged | null;
}

/** Characters of a row on a phone. */
const rowLength = 38;
/** Rows that fit a phone screen. */
const mostRows = 20;
/** Choices of a list to pick from. */
const mostChoices = 25;

/** Sales at a glance, with a list to open one. */
export function saleListCard(voice: Voice, listed: readonly SaleInList[], asked: SaleState | null): Card {
  const kind = asked === null ? 'open' : asked;
  if (listed.length === 0) {
    return {
      title: `Sales: none ${kind}`,
      next: 'Book one with /sale add',
      controls: [[button('New sale', press('sale-form', {}), 'main')]],
    };
  }
  const latestFirst = kind === 'sent' || kind === 'arrived' || kind === 'cancelled' ? [...listed].reverse() : listed;
  const shown = latestFirst.slice(0, mostRows);
  const troubled = listed.filter(({ judged, state }) => judged !== null && !judged.good && state !== 'lapsed');
  return {
    title: `Sales: ${listed.length} ${kind}`,
    why: [
      ...(troubled.length > 0 ? [`Not on a good day (!): ${troubled.map(({ sale }) => sale.id).join(', ')}`] : []),
      ...(listed.length > shown.length ? [`${listed.length - shown.length} more are not shown`] : []),
    ],
    table: listTable(voice, shown),
    controls: [
      [
        {
          kind: 'select',
          placeholder: 'Show a sale',
          press: press('sale-pick', {}),
          options: latestFirst.slice(0, mostChoices).map(({ sale, state }) => ({
            label: `Sale ${sale.id}${sale.buyer === null ? '' : ` · ${sale.buyer}`}`,
            value: String(sale.id),
            description: `${state} · ${itemsLine(sale)}`,
          })),
        },
      ],
    ],
  };
}

/** Characters for what is sold where a buyer stands beside it. */
const itemsWidth = 11;

/** Rows under their heads, each column as wide as it must be: "41   15 Mar  paid  20 jade +1  kestrel". */
function listTable(voice: Voice, shown: readonly SaleInList[]): string[] {
  const rows = shown.map(({ sale, state, judged }) => ({
    no: `${sale.id}${judged !== null && !judged.good ? '!' : ''}`,
    day: sale.dispatchOn === null ? 'no day' : dateWords(voice, sale.dispatchOn).slice(4),
    state,
    what: whatWords(sale),
    buyer: sale.buyer ?? '',
  }));
  const heads = { no: 'no.', day: 'day', state: 'state', what: 'what', buyer: 'buyer' };
  const widthOf = (column: 'no' | 'day' | 'state'): number =>
    Math.max(...[heads, ...rows].map((row) => row[column].length));
  const widths = { no: widthOf('no'), day: widthOf('day'), state: widthOf('state') };
  return [heads, ...rows].map(({ no, day, state, what, buyer }) => {
    const left = `${no.padEnd(widths.no)} ${day.padEnd(widths.day)} ${state.padEnd(widths.state)} `;
    const order = buyer === '' ? what : `${clipped(what, itemsWidth).padEnd(itemsWidth)} ${buyer}`;
    return clipped(`${left}${order}`, rowLength);
  });
}

/** "20 jade", "20 jade +1" where something else is sold with it. */
function whatWords({ items }: Sale): string {
  const [first, ...others] = items;
  if (first === undefined) return '';
  const more = others.length === 0 ? '' : ` +${others.length}`;
  return `${clipped(`${first.number} ${first.name}`, itemsWidth - more.length)}${more}`;
}

const clipped = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most - 1)}…` : text);

export interface SaleInTrouble {
  readonly sale: Sale;
  readonly judged: Judged;
}

/** Open sales whose day is not good, a line each with the next day that is. */
export function troubleLines(voice: Voice, troubled: readonly SaleInTrouble[], most = 6): string[] {
  const lines = troubled.slice(0, most).map(({ sale, judged }) => {
    const next = judged.next === null ? 'no good day within a year' : `next good day ${dateWords(voice, judged.next)}`;
    return `Sale ${sale.id}, ${dateWords(voice, judged.day)}: ${next} (${whyShort(voice, judged)})`;
  });
  return troubled.length > most ? [...lines, `and ${troubled.length - most} more: see /sale list`] : lines;
}

/** The deciding reason in a few words; a closed window by its name. */
function whyShort(voice: Voice, { reasons }: Judged): string {
  const [first] = reasons;
  if (first?.kind === 'closed-window') return `closed: ${first.window.name}`;
  return reasonLines(voice, reasons, 1)[0] ?? '';
}

/** A button that moves each to its next good day, and one that moves all; at most two rows. */
export function troubleControls(voice: Voice, troubled: readonly SaleInTrouble[]): ControlRow[] {
  const movable = troubled.filter(({ judged }) => judged.next !== null);
  const each = movable
    .slice(0, 4)
    .flatMap(({ sale, judged }) => (judged.next === null ? [] : [moveButton(voice, sale.id, judged.next, true)]));
  if (each.length === 0) return [];
  return movable.length === 1 ? [each] : [each, [button(`Move all ${movable.length}`, press('sales-move-all', {}))]];
}

/** What became of the sales that were to move to their next good days. */
export function salesMovedCard(
  voice: Voice,
  by: string,
  moved: readonly { readonly sale: Sale }[],
  notMoved: readonly { readonly sale: number; readonly fault: Refusal }[],
): Card {
  const to = ({ dispatchOn }: Sale): string => (dispatchOn === null ? 'no day' : dateWords(voice, dispatchOn));
  if (moved.length === 0 && notMoved.length === 0)
    return { title: 'Every open sale is on a good day: nothing to move' };
  return {
    title: `${counted(moved.length, 'sale')} moved`,
    why: [
      ...moved.map(({ sale }) => `Sale ${sale.id} to ${to(sale)}`),
      ...notMoved.map(({ sale }) => `Not moved: sale ${sale}, no good day within a year`),
      `logged by ${by}`,
    ],
    ...(moved.length > 0 && { next: 'Tell the buyers' }),
  };
}
