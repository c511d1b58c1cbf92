import type { Card } from '../reply/index.ts';
import { escaped } from './escape.ts';
import { clipped, limits } from './limits.ts';

const TITLE_MOST = 300;
const NEXT_MOST = 400;
/** One line of `why` that is longer says too much for a phone. */
const LINE_MOST = 600;
const FENCE = '```';
/** Room for the line that says how many are left out. */
const MORE_ROOM = 24;

interface Line {
  readonly text: string;
  readonly inTable: boolean;
}

/**
 * A card's plain words as message text: the title in bold, why, the table in a code block, what next. Too long a card loses its last lines
 * of `why` and table, and says how many; title, next and `tail` stay.
 */
export function contentOf(card: Card, tail: readonly string[]): string {
  const head = `**${shown(card.title, TITLE_MOST)}**`;
  const feet = [...(card.next === undefined ? [] : [`Next: ${shown(card.next, NEXT_MOST)}`]), ...tail];
  const room = limits.content - [head, ...feet].join('\n').length;
  return [head, ...bodyOf(linesOf(card), room), ...feet].join('\n');
}

/** Cut first: cutting an escaped text could leave half an escape. */
const shown = (text: string, most: number): string => escaped(clipped(text.replace(/\s*\n\s*/g, ' '), most));

/** Three backticks inside the table would close its block: an invisible joiner tells them apart. */
const unfenced = (text: string): string => text.replaceAll('``', '`\u2060`');

function linesOf(card: Card): Line[] {
  const why = (card.why ?? []).flatMap((text) => text.split('\n'));
  const table = (card.table ?? []).flatMap((text) => text.split('\n'));
  return [
    ...why.map((text) => ({ text: shown(text, LINE_MOST), inTable: false })),
    ...table.map((text) => ({ text: clipped(unfenced(text), LINE_MOST), inTable: true })),
  ];
}

/** As many of the lines as fit into `room` characters, each counted with the break before it. */
function bodyOf(lines: readonly Line[], room: number): string[] {
  const all = laidOut(lines);
  if (sizeOf(all) <= room) return all;
  for (let count = lines.length - 1; count >= 0; count -= 1) {
    const kept = laidOut(lines.slice(0, count));
    if (sizeOf(kept) <= room - MORE_ROOM) return [...kept, `… ${lines.length - count} more lines`];
  }
  return [];
}

const sizeOf = (lines: readonly string[]): number => lines.reduce((sum, text) => sum + text.length + 1, 0);

function laidOut(lines: readonly Line[]): string[] {
  const table = lines.filter(({ inTable }) => inTable).map(({ text }) => text);
  const why = lines.filter(({ inTable }) => !inTable).map(({ text }) => text);
  return table.length === 0 ? why : [...why, FENCE, ...table, FENCE];
}
