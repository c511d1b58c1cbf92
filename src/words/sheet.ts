import { celsiusOf, fahrenheitOf, folded, type Units, type WaterValueName } from '../domain/index.ts';
import { nearNames } from './nearNames.ts';

/** Why a line of the sheet, or a part of it, was not understood. */
export type SheetProblem =
  | { readonly kind: 'unknown-tub'; readonly typed: string; readonly near: readonly string[] }
  | { readonly kind: 'unknown-word'; readonly typed: string; readonly near: readonly string[] }
  /** A key without its number. */
  | { readonly kind: 'no-number'; readonly typed: string }
  /** One value typed twice for a tub, on this line or an earlier one. */
  | { readonly kind: 'twice'; readonly typed: string };

/** One line of the sheet that says something. */
export interface SheetLine {
  readonly text: string;
  /** The tub by its own spelling. */
  readonly tub?: string;
  /** What was understood, also beside a problem; plausibility is for others to judge. */
  readonly values?: Readonly<Partial<Record<WaterValueName, number>>>;
  /** The first problem of the line. */
  readonly problem?: SheetProblem;
}

const keys: Readonly<Record<string, WaterValueName>> = {
  no3: 'nitrateMgL',
  nitrate: 'nitrateMgL',
  no2: 'nitriteMgL',
  nitrite: 'nitriteMgL',
  ...{ nh4: 'ammoniaMgL', nh3: 'ammoniaMgL', ammonia: 'ammoniaMgL', tan: 'ammoniaMgL' },
  ...{ t: 'tempC', temp: 'tempC', ph: 'ph', gh: 'ghDgh', kh: 'khDkh', tds: 'tdsMgL' },
};

const keyPattern = Object.keys(keys)
  .sort((a, b) => b.length - a.length)
  .join('|');
const unitPattern = '(?:mg ?/ ?l|mgl|ppm|°? ?[cf]|°? ?d[gk]?h|°)(?![\\p{L}\\d])';
const valuePattern = new RegExp(
  `^(${keyPattern})(?:\\s*[:=]\\s*|\\s+|(?<=\\p{L}))([-+]?\\d+(?:[.,]\\d+)?)\\s*(${unitPattern})?(?=$|[\\s,;·|])`,
  'iu',
);

/**
 * Reads a sheet of readings, one tub a line: "A1 no3 20 t 21.5 ph 7,4". Keys in any order and case, with or without `:` or
 * `=`; temperatures come on the scale of `units`, a marked one of the other
 * scale is turned. Empty lines and lines with no more than a tub are left out.
 */
export function parseSheet(text: string, tubNames: readonly string[], units: Units = 'metric'): SheetLine[] {
  const seen = new Map<string, Set<WaterValueName>>();
  return text.split(/\r?\n/).flatMap((raw) => {
    const line = raw.replace(/\s+/g, ' ').trim();
    const read = line === '' ? undefined : readLine(line, tubNames, seen, units);
    return read === undefined ? [] : [read];
  });
}

function readLine(
  text: string,
  tubNames: readonly string[],
  seen: Map<string, Set<WaterValueName>>,
  units: Units,
): SheetLine | undefined {
  const found = tubAt(text, tubNames);
  if (found === undefined) {
    const typed = /^[^\s:=,;]+/.exec(text)?.[0] ?? text;
    return { text, problem: { kind: 'unknown-tub', typed, near: nearNames(typed, tubNames) } };
  }
  const taken = seen.get(found.tub) ?? new Set();
  seen.set(found.tub, taken);
  const { values, problem } = readValues(text.slice(found.length), taken, units);
  if (Object.keys(values).length === 0 && problem === undefined) return undefined;
  return { text, tub: found.tub, values, ...(problem === undefined ? {} : { problem }) };
}

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

function readValues(
  text: string,
  taken: Set<WaterValueName>,
  units: Units,
): { values: Partial<Record<WaterValueName, number>>; problem: SheetProblem | undefined } {
  const values: Partial<Record<WaterValueName, number>> = {};
  const problems: SheetProblem[] = [];
  let rest = text;
  for (;;) {
    rest = rest.replace(/^[\s:=,;·|]+/u, '');
    if (rest === '') return { values, problem: problems[0] };
    const found = valuePattern.exec(rest);
    const name = found === null ? undefined : keys[(found[1] ?? '').toLowerCase()];
    if (found === null || name === undefined) {
      const typed = /^[^\s:=,;·|]+/u.exec(rest)?.[0] ?? rest;
      problems.push(problemWith(typed));
      rest = rest.slice(typed.length);
      continue;
    }
    if (taken.has(name)) problems.push({ kind: 'twice', typed: found[0] });
    else values[name] = measured(found[2] ?? '', found[3], units);
    taken.add(name);
    rest = rest.slice(found[0].length);
  }
}

function problemWith(typed: string): SheetProblem {
  const key = folded(typed);
  return Object.hasOwn(keys, key)
    ? { kind: 'no-number', typed }
    : { kind: 'unknown-word', typed, near: nearNames(key, Object.keys(keys)) };
}

/** The number on the scale of the business's units; a marked degree of the other scale is turned. */
function measured(typed: string, unit: string | undefined, units: Units): number {
  const value = Number(typed.replace(',', '.'));
  const tenth = (of: number): number => Math.round(of * 10) / 10;
  if (unit !== undefined && units === 'metric' && /f$/i.test(unit)) return tenth(celsiusOf(value));
  return unit !== undefined && units === 'us' && /c$/i.test(unit) ? tenth(fahrenheitOf(value)) : value;
}
