import type { Tub, WaterVerdict } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card } from './card.ts';
import { cut } from './cut.ts';
import { figureOf } from './findings.ts';
import { counted, listWords, loggedWords, type Voice } from './voice.ts';

/** What of a line was not understood. */
export type SheetProblem =
  | { readonly kind: 'unknown-tub' | 'unknown-word'; readonly typed: string; readonly near: readonly string[] }
  | { readonly kind: 'no-number' | 'twice'; readonly typed: string };

export function sheetProblem(problem: SheetProblem): string {
  const typed = `"${cut(problem.typed)}"`;
  switch (problem.kind) {
    case 'unknown-tub':
      return `No tub called ${typed}${nearWords(problem.near)}`;
    case 'unknown-word':
      return `${typed} is not a value${nearWords(problem.near)}`;
    case 'no-number':
      return `${typed} has no number behind it`;
    case 'twice':
      return `${typed} stands there twice`;
  }
}

const nearWords = (near: readonly string[]): string => (near.length === 0 ? '' : `, near it ${listWords(near, 'or')}`);

/** A filled-in sheet: what was logged and judged, and line by line what was not. */
export function sheetCard(
  voice: Voice,
  by: string,
  logged: readonly { readonly tub: Tub; readonly verdict: WaterVerdict }[],
  wrong: readonly { readonly line: string; readonly why: string }[],
  retry: Button | null,
): Card {
  const troubled = logged.filter(({ verdict }) => verdict.state !== 'fine');
  const fine = logged.filter(({ verdict }) => verdict.state === 'fine');
  const nothing = logged.length === 0 && wrong.length === 0;
  return {
    title: nothing
      ? 'Not logged: the sheet was empty'
      : `${counted(logged.length, 'reading')} logged${wrong.length > 0 ? `, ${counted(wrong.length, 'line')} not` : ''}`,
    why: [
      ...troubled.slice(0, 8).map(({ tub, verdict }) => {
        const [worst] = verdict.findings;
        return `${tub.name}: ${verdict.state}${worst === undefined ? '' : `, ${figureOf(voice, worst)}`}`;
      }),
      ...(troubled.length > 8 ? [`and ${troubled.length - 8} more to watch`] : []),
      ...(fine.length > 0 ? [`Fine: ${fine.map(({ tub }) => tub.name).join(' ')}`] : []),
      ...wrong.slice(0, 6).map(({ line, why }) => `Not: ${cut(line)} (${why.replace(/^Not logged: /, '')})`),
      ...(wrong.length > 6 ? [`and ${wrong.length - 6} more lines`] : []),
      ...(logged.length > 0 ? [loggedWords(voice, by)] : []),
    ],
    ...(wrong.length > 0 && { next: 'Mend the lines that were not logged; they are kept' }),
    controls: [[...(retry === null ? [] : [retry]), button('Next change', press('change-plan', {}))]],
  };
}
