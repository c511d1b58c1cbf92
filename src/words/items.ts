import { folded } from '../domain/index.ts';
import { type ItemToken, tokensOf } from './itemTokens.ts';
import { bestGuess, nearNames } from './nearNames.ts';

/** What the business sells, by name. */
export interface ItemNames {
  readonly lines: readonly string[];
  readonly goods: readonly string[];
}

/** Some animals of a line, or some pieces of goods. */
export interface TypedItem {
  readonly of: 'line' | 'goods';
  readonly name: string;
  readonly number: number;
}

/** A piece of the text that is no item, and why. */
export interface UnknownPiece {
  readonly typed: string;
  readonly near: readonly string[];
  readonly why: 'no-such-name' | 'no-number' | 'bad-number' | 'no-name';
}

export interface TypedItems {
  /** In the order of the text, each name once. */
  readonly items: readonly TypedItem[];
  readonly unknown: readonly UnknownPiece[];
  /** The whole text in plain form with the best guesses; null where nothing needs mending or a piece has no clear guess. */
  readonly mended: string | null;
}

/** The plain form of an order: "20 orange, 10 green". */
export const printItems = (items: readonly { readonly number: number; readonly name: string }[]): string =>
  items.map(({ number, name }) => `${number} ${name}`).join(', ');

/**
 * Reads an order in words: "20 orange, 10 green, 2 moss", "2 tens orange + 10 green", "jade x20", "a ten of jade". Every
 * piece of the text ends up in `items` or in `unknown`. A name that is both a line and goods is read as the line.
 */
export function parseItems(text: string, names: ItemNames): TypedItems {
  const all = [...names.lines, ...names.goods];
  const pieces = split(tokensOf(text, all)).flatMap((segment) => piecesOf(segment, text));
  const read = pieces.map((piece) => judge(piece, all));
  const unknown = read.flatMap((piece) => ('typed' in piece ? [piece] : []));
  const guesses = read.map((piece) => ('typed' in piece ? piece.guess : piece));
  const whole = guesses.filter((guess) => guess !== null);
  return {
    items: summed(read.flatMap((piece) => ('typed' in piece ? [] : [piece]))).map((item) => ({
      of: names.lines.includes(item.name) ? 'line' : 'goods',
      ...item,
    })),
    unknown: unknown.map(({ typed, near, why }) => ({ typed, near, why })),
    mended: unknown.length > 0 && whole.length === guesses.length ? printItems(summed(whole)) : null,
  };
}

interface NamedNumber {
  readonly name: string;
  readonly number: number;
}

function summed(items: readonly NamedNumber[]): NamedNumber[] {
  const sums = new Map<string, number>();
  for (const { name, number } of items) sums.set(name, (sums.get(name) ?? 0) + number);
  return [...sums].map(([name, number]) => ({ name, number }));
}

function split(tokens: readonly ItemToken[]): ItemToken[][] {
  const segments: ItemToken[][] = [[]];
  for (const token of tokens) {
    if (token.kind === 'break') segments.push([]);
    else segments.at(-1)?.push(token);
  }
  return segments.filter((segment) => segment.length > 0);
}

/** A number with what was called by it, as far as either was typed. */
interface Piece {
  readonly number: number | 'bad' | null;
  readonly called: { readonly typed: string; readonly names: readonly string[]; readonly plain: boolean } | null;
  readonly typed: string;
}

/** Pairs the numbers and names of a stretch without separators: each number with the name after it, or before it. */
function piecesOf(segment: readonly ItemToken[], text: string): Piece[] {
  const pieces: Piece[] = [];
  let rest = segment;
  while (rest.length > 0) {
    const numberFirst = isQuantity(rest[0]);
    const first = rest.slice(0, runLength(rest, numberFirst));
    const after = rest.slice(first.length);
    const second = after.slice(0, runLength(after, !numberFirst));
    rest = after.slice(second.length);
    const [quantity, called] = numberFirst ? [first, second] : [second, first];
    pieces.push({
      number: numberOf(quantity),
      called: calledBy(called, text),
      typed: typedText([...first, ...second], text),
    });
  }
  return pieces;
}

const isQuantity = (token: ItemToken | undefined): boolean =>
  token !== undefined && token.kind !== 'name' && token.kind !== 'word';

/** How many tokens from the start belong to one quantity, or to one name. */
function runLength(tokens: readonly ItemToken[], quantity: boolean): number {
  const end = tokens.findIndex((token) => isQuantity(token) !== quantity);
  return end === -1 ? tokens.length : end;
}

const typedText = (tokens: readonly ItemToken[], text: string): string =>
  tokens.length === 0 ? '' : text.slice(tokens[0]?.from, tokens.at(-1)?.to).replace(/\s+/g, ' ').trim();

function calledBy(tokens: readonly ItemToken[], text: string): Piece['called'] {
  if (tokens.length === 0) return null;
  const names = tokens.flatMap((token) => (token.kind === 'name' ? [token.name] : []));
  return { typed: typedText(tokens, text), names, plain: tokens.length === 1 && names.length === 1 };
}

/** "20", "2 tens", "a ten", "twenty five", "2 x 10"; null where no number stands, bad where it is none to pack. */
function numberOf(tokens: readonly ItemToken[]): Piece['number'] {
  const numbers = tokens.filter((token) => token.kind !== 'times');
  if (numbers.length === 0) return null;
  const product = tokens.some((token, index) => token.kind === 'times' && index > 0 && index < tokens.length - 1);
  let total: number | null = null;
  for (const token of numbers) {
    if (token.kind !== 'number' && token.kind !== 'unit') return 'bad';
    if (total === null) total = token.number;
    else if (token.kind === 'unit' || product) total *= token.number;
    else if (total >= 20 && total < 100 && total % 10 === 0 && token.number < 10) total += token.number;
    else return 'bad';
  }
  return total === null || total > 999_999 ? 'bad' : total;
}

function judge(piece: Piece, all: readonly string[]): NamedNumber | (UnknownPiece & { guess: NamedNumber | null }) {
  const { number, called, typed } = piece;
  if (number === 'bad') return { typed, near: [], why: 'bad-number', guess: null };
  if (called === null) return { typed, near: [], why: 'no-name', guess: null };
  const [only] = called.names;
  if (called.plain && only !== undefined) {
    return number === null ? { typed, near: [], why: 'no-number', guess: null } : { name: only, number };
  }
  const near = [...new Set([...called.names, ...nearNames(called.typed, all)])].slice(0, 3);
  const guess = called.names.length > 0 ? soleName(called.names) : bestGuess(called.typed, all);
  return {
    typed: called.typed,
    near,
    why: 'no-such-name',
    guess: guess === null || number === null ? null : { name: guess, number },
  };
}

const soleName = (names: readonly string[]): string | null =>
  names.length === 1 || new Set(names.map(folded)).size === 1 ? (names[0] ?? null) : null;
