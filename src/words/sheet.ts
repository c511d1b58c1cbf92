import { canBe, celsiusOf, fahrenheitOf, folded, type Units, type WaterValueName } from '../domain/index.ts';
import { nearNames } from './nearNames.ts';

/** Why a line of the sheet, or a part of it, was not understood. */
export type SheetProblem =
  | { readonly kind: 'unknown-tub'; readonly typed: string; readonly near: readonly string[] }
  | { readonly kind: 'unknown-word'; readonly typed: string; readonly near: readonly string[] }
  /** A key without its number. */
  | { readonly kind: 'no-number'; readonly typed: string }
  /** A bound instead of a value: "no3 <5". */
  | { readonly kind: 'not-exact'; readonly typed: string }
  /** One or a thousand: "1,000". */
  | { readonly kind: 'unclear-number'; readonly typed: string }
  /** One value typed twice for a tub, on this line or an earlier one. */
  | { readonly kind: 'twice'; readonly typed: string };

/** One line of the sheet that says something. */
export interface SheetLine {
  readonly text: string;
  /** The tub by its own spelling. */
  readonly tub?: string;
  /** What was understood, also beside a problem; plausibility is for others to judge. */
  readonly values?: Readonly<Partial<Record<WaterValueName, number>>>;
  /** What stands behind the values: "lovely shrimp today". */
  readonly note?: string;
  /** The first problem of the line. */
  readonly problem?: SheetProblem;
}

const keys: Readonly<Record<string, WaterValueName>> = {
  no3: 'nitrateMgL',
  nitrate: 'nitrateMgL',
  no2: 'nitriteMgL',
  nitrite: 'nitriteMgL',
  ...{ nh4: 'ammoniaMgL', nh3: 'ammoniaMgL', ammonia: 'ammoniaMgL', tan: 'ammoniaMgL' },
  ...{ ammonium: 'ammoniaMgL', nitrat: 'nitrateMgL', nitrit: 'nitriteMgL', temperature: 'tempC', 't°': 'tempC' },
  ...{ t: 'tempC', temp: 'tempC', ph: 'ph', gh: 'ghDgh', kh: 'khDkh', tds: 'tdsMgL' },
};

/** Keys that are named to somebody who mistyped one. */
const offered = Object.keys(keys).filter((key) => !['nitrat', 'nitrit', 't°'].includes(key));

const keyPattern = Object.keys(keys)
  .sort((a, b) => b.length - a.length)
  .join('|');
const unitPattern = '(?:mg ?/ ?l|mgl|ppm|°? ?[cf]|°? ?d[gk]?h|°)(?![\\p{L}\\d])';
const numberPattern = '\\d+(?:[.,]\\d+)?';
/** A key, and a number that may be about ("~20"), between two steps ("20-40") or of the top step ("160+"). */
const valuePattern = new RegExp(
  `^(${keyPattern})(?:\\s*[:=]\\s*|\\s+|(?<=[\\p{L}°]))(?:~|ca\\.? ?)?([-+]?${numberPattern})(?: ?[-–] ?(${numberPattern})|\\+)?\\s*(${unitPattern})?(?=$|[\\s,;·|])`,
  'iu',
);
const boundPattern = new RegExp(`^(${keyPattern})\\s*[:=]?\\s*[<>≤≥]\\s*${numberPattern}`, 'iu');
/** "1,000" is a thousand to one and one to another. */
const unclearPattern = /^[-+]?[1-9]\d{0,2},000$/;

/**
 * Reads a sheet of readings, one tub a line: "A1 no3 20 t 21.5 ph 7,4". Keys in any order and case, with or without `:` or
 * `=`; temperatures come on the scale of `units`, a marked one of the other
 * scale is turned. Words behind the values are a note. Empty lines and lines with no more than a tub are left out, as are list marks.
 */
export function parseSheet(text: string, tubNames: readonly string[], units: Units = 'metric'): SheetLine[] {
  const seen = new Map<string, Set<WaterValueName>>();
  return text.split(/\r?\n/).flatMap((raw) => {
    const line = plain(raw);
    const read = !/[\p{L}\d]/u.test(line) ? undefined : readLine(line, tubNames, seen, units);
    return read === undefined ? [] : [read];
  });
}

/** One space between words, and figures that stand low set upright: "NO₃". */
const plain = (line: string): string =>
  line
    .replace(/[₀-₉]/g, (digit) => String(digit.charCodeAt(0) - 0x2080))
    .replace(/\s+/g, ' ')
    .trim();

/** "1. ", "- " or "• " before a line of a list. */
const listMark = /^(?:[-*•–]|\d{1,2}[.)])\s+/u;

function readLine(
  text: string,
  tubNames: readonly string[],
  seen: Map<string, Set<WaterValueName>>,
  units: Units,
): SheetLine | undefined {
  const unmarked = text.replace(listMark, '');
  const whole = tubAt(text, tubNames);
  const found = whole ?? tubAt(unmarked, tubNames);
  const line = whole === undefined ? unmarked : text;
  if (found === undefined) {
    const typed = /^[^\s:=,;]+/.exec(line)?.[0] ?? line;
    return { text, problem: { kind: 'unknown-tub', typed, near: nearNames(typed, tubNames) } };
  }
  const taken = seen.get(found.tub) ?? new Set();
  const { values, note, problem } = readValues(line.slice(found.length), taken, units);
  const names = Object.keys(values) as WaterValueName[];
  if (names.length === 0 && note === undefined && problem === undefined) return undefined;
  // A line that will be refused leaves its values to be typed again on another.
  const isGood = problem === undefined && names.every((name) => isPossible(name, values[name] ?? 0, units));
  if (isGood) seen.set(found.tub, new Set([...taken, ...names]));
  return {
    text,
    tub: found.tub,
    values,
    ...(note === undefined ? {} : { note }),
    ...(problem === undefined ? {} : { problem }),
  };
}

const isPossible = (name: WaterValueName, value: number, units: Units): boolean =>
  canBe(name, name === 'tempC' && units === 'us' ? celsiusOf(value) : value);

/** The longest tub name with which the line begins, letters and numbers of it typed apart or together. */
function tubAt(line: string, tubNames: readonly string[]): { tub: string; length: number } | undefined {
  return tubNames
    .flatMap((tub) => {
      const parts = tub.match(/\d+|\p{L}+|[^\p{L}\d\s]/gu) ?? [];
      const escaped = parts.map((part) => part.replace(/[\\^$.*+?()[\]{}|/]/, '\\$&')).join('\\s*');
      const found = parts.length === 0 ? null : new RegExp(`^${escaped}(?=$|[\\s:=,;])`, 'iu').exec(line);
      return found === null ? [] : [{ tub, length: found[0].length }];
    })
    .sort((a, b) => b.length - a.length)[0];
}

interface ReadValues {
  readonly values: Partial<Record<WaterValueName, number>>;
  readonly note: string | undefined;
  readonly problem: SheetProblem | undefined;
}

function readValues(text: string, taken: ReadonlySet<WaterValueName>, units: Units): ReadValues {
  const values: Partial<Record<WaterValueName, number>> = {};
  const problems: SheetProblem[] = [];
  let rest = text;
  for (;;) {
    rest = rest.replace(/^[\s:=,;·|]+/u, '');
    if (rest === '') return { values, note: undefined, problem: problems[0] };
    const found = valuePattern.exec(rest);
    const name = found === null ? undefined : keys[(found[1] ?? '').toLowerCase()];
    if (found === null || name === undefined) {
      const note = noteOf(rest, Object.keys(values).length > 0);
      if (note !== undefined) return { values, note, problem: problems[0] };
      const bound = boundPattern.exec(rest)?.[0];
      const typed = bound ?? /^[^\s:=,;·|]+/u.exec(rest)?.[0] ?? rest;
      problems.push(bound === undefined ? problemWith(typed) : { kind: 'not-exact', typed });
      rest = rest.slice(typed.length);
      continue;
    }
    const [all, , number = '', upTo, unit] = found;
    if (taken.has(name) || values[name] !== undefined) problems.push({ kind: 'twice', typed: all });
    else if (unclearPattern.test(number)) problems.push({ kind: 'unclear-number', typed: number });
    else values[name] = measured(number, upTo, unit, units);
    rest = rest.slice(all.length);
  }
}

/**
 * The words behind the values of a line; undefined where they may be values that were mistyped: where another key follows with its number,
 * or the first word comes near a key.
 */
function noteOf(rest: string, isBehindValues: boolean): string | undefined {
  const marked = /^note[\s:=]+(?<words>.+)$/iu.exec(rest)?.groups?.['words'];
  if (marked !== undefined) return marked;
  const words = rest.split(' ');
  const [first = ''] = words;
  const isWord = isBehindValues && /^\p{L}{2,}[^\d]*$/u.test(first);
  if (!isWord || Object.hasOwn(keys, folded(first)) || nearNames(folded(first), offered).length > 0) {
    return undefined;
  }
  return words.some((_, place) => valuePattern.test(words.slice(place).join(' '))) ? undefined : rest;
}

function problemWith(typed: string): SheetProblem {
  const key = folded(typed);
  return Object.hasOwn(keys, key)
    ? { kind: 'no-number', typed }
    : { kind: 'unknown-word', typed, near: nearNames(key, offered) };
}

/** The number on the scale of the business's units, the middle of two; a marked degree of the other scale is turned. */
function measured(typed: string, upTo: string | undefined, unit: string | undefined, units: Units): number {
  const numberOf = (text: string): number => Number(text.replace(',', '.'));
  const value = upTo === undefined ? numberOf(typed) : (numberOf(typed) + numberOf(upTo)) / 2;
  const tenth = (of: number): number => Math.round(of * 10) / 10;
  if (unit !== undefined && units === 'metric' && /f$/i.test(unit)) return tenth(celsiusOf(value));
  return unit !== undefined && units === 'us' && /c$/i.test(unit) ? tenth(fahrenheitOf(value)) : value;
}
