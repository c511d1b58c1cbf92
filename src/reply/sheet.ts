import type { ReadingLogged, WaterState } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type ControlRow } from './card.ts';
import { cut } from './cut.ts';
import { unionisedShort } from './findings.ts';
import { rangeWords } from './nitrate.ts';
import { adviceFor } from './reading.ts';
import { type Headline, headlineOf, needsFirstAid } from './readingHeadline.ts';
import { counted, figure, listWords, loggedWords, mgLWords, someWords, type Voice } from './voice.ts';

/** What of a line was not understood. */
export type SheetProblem =
  | { readonly kind: 'unknown-tub' | 'unknown-word'; readonly typed: string; readonly near: readonly string[] }
  | { readonly kind: 'no-number' | 'not-exact' | 'unclear-number' | 'twice'; readonly typed: string };

export function sheetProblem(problem: SheetProblem): string {
  const typed = `"${cut(problem.typed)}"`;
  switch (problem.kind) {
    case 'unknown-tub':
      return `No tub called ${typed}${nearWords(problem.near)}`;
    case 'unknown-word':
      return `${typed} is not a value${nearWords(problem.near)}`;
    case 'no-number':
      return `${typed} has no number behind it`;
    case 'not-exact':
      return `${typed}: type the step it comes nearest`;
    case 'unclear-number':
      return `${typed}: one, or a thousand?`;
    case 'twice':
      return `${typed} stands there twice`;
  }
}

const nearWords = (near: readonly string[]): string => (near.length === 0 ? '' : `, near it ${listWords(near, 'or')}`);

/** Lines about tubs that are not fine; what harms is always there. */
const mostTroubled = 8;
/** Lines that were not logged. */
const mostWrong = 6;

interface Judged {
  readonly logged: ReadingLogged;
  readonly headline: Headline;
}

/**
 * A filled-in sheet: what was logged and judged, what harms first, and line by line what was not logged.
 * @param retry opens the form again with what was not logged
 * @param mends the only line that was not logged, with what it probably meant, each on a button
 */
export function sheetCard(
  voice: Voice,
  by: string,
  logged: readonly ReadingLogged[],
  wrong: readonly { readonly line: string; readonly why: string }[],
  retry: Button | null,
  mends: readonly Button[] = [],
): Card {
  const judged = logged.map((one): Judged => ({ logged: one, headline: headlineOf(voice, one) }));
  const ofState = (wanted: WaterState): Judged[] => judged.filter(({ headline: { state } }) => state === wanted);
  const acts = ofState('act');
  const watched = ofState('watch').toSorted((a, b) => Number(b.logged.odd !== null) - Number(a.logged.odd !== null));
  const troubled = [...acts, ...watched];
  const shown = troubled.slice(0, Math.max(acts.length, mostTroubled));
  const fine = ofState('fine');
  const next =
    acts.length > 0
      ? actAdvice(voice, acts)
      : wrong.length > 0
        ? 'Mend the lines that were not logged; they are kept'
        : null;
  return {
    title: sheetTitle(acts, logged.length, wrong.length),
    why: [
      ...shown.map((one) => judgedLine(one)),
      ...(troubled.length > shown.length ? [`and ${troubled.length - shown.length} more to watch`] : []),
      ...(fine.length > 0 ? [`Fine: ${fine.map((one) => one.logged.tub.name).join(' ')}`] : []),
      ...wrong.slice(0, mostWrong).map(({ line, why }) => `Not: ${cut(line)} (${why.replace(/^Not logged: /, '')})`),
      ...(wrong.length > mostWrong ? [`and ${wrong.length - mostWrong} more lines`] : []),
      ...(logged.length > 0 ? [loggedWords(voice, by)] : []),
    ],
    ...(next !== null && { next }),
    controls: sheetControls(acts, logged, [...mends, ...(retry === null ? [] : [retry])]),
  };
}

function sheetTitle(acts: readonly Judged[], logged: number, wrong: number): string {
  if (logged === 0 && wrong === 0) return 'Not logged: the sheet was empty';
  const not = wrong > 0 ? `, ${counted(wrong, 'line')} not` : '';
  const [first] = acts;
  if (first === undefined) return `${counted(logged, 'reading')} logged${not}`;
  const where = acts.length === 1 ? first.logged.tub.name : counted(acts.length, 'tub');
  return `Act in ${where}: ${logged} logged${not}`;
}

/** "A12: act, ammonia 3 mg/L, 0.235 mg/L un-ionised (7.84 %)", "A3: watch, nitrate 60 mg/L, change 5 L today". */
function judgedLine({ logged, headline: { state, words, worst } }: Judged): string {
  const line = `${logged.tub.name}: ${state}, ${words}`;
  if (worst?.of === 'ammonia') return `${line}, ${unionisedShort(worst)}`;
  if (worst?.of === 'nitrate') return `${logged.tub.name}: ${state}, nitrate ${mgLWords(worst.mgL)}, ${words}`;
  return logged.odd !== null && state === 'watch' && worst === null
    ? `${line}, ${rangeWords(logged.odd.expectedMgL)} expected`
    : line;
}

/** What to do first: water for all tubs where it harms, or what the worst one needs. */
function actAdvice(voice: Voice, acts: readonly Judged[]): string | null {
  const aided = acts.filter(({ logged }) => needsFirstAid(logged));
  if (aided.length === 0) {
    const [first] = acts;
    const advice = first === undefined ? null : adviceFor(voice, first.logged, first.headline.worst);
    return first === undefined || advice === null ? null : `${first.logged.tub.name}: ${lowerFirst(advice)}`;
  }
  const changes = aided.map(({ logged: { tub, plan } }) => `${tub.name} ${figure(plan.litres)} L`);
  return `Change ${someWords(changes, 2)} now; no food, more air, test tomorrow`;
}

const lowerFirst = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);

/** More readings that do not fit than this are offered in a list. */
const mostOddButtons = 3;

/** First aid first; then the way to the lines that were not logged, and to what puts right those that do not fit. */
function sheetControls(
  acts: readonly Judged[],
  logged: readonly ReadingLogged[],
  mends: readonly Button[],
): ControlRow[] {
  const aid = acts.find((one) => needsFirstAid(one.logged))?.logged;
  const odd = logged.flatMap((one) => (one.odd === null ? [] : [one]));
  const label = ({ tub, reading }: ReadingLogged): string =>
    `${tub.name}: ${figure(reading.nitrateMgL ?? 0)} does not fit`;
  const first = [
    ...(aid === undefined
      ? []
      : [
          button(
            `${aid.tub.name} changed ${figure(aid.plan.litres)} L`,
            press('change-now', { tub: aid.tub.id, litres: aid.plan.litres }),
            'main',
          ),
        ]),
    ...mends,
    button('Next change', press('change-plan', {})),
  ];
  if (odd.length === 0) return [first];
  if (odd.length <= mostOddButtons) {
    return [first, odd.map((one) => button(label(one), press('reading-show', { entry: one.entryId })))];
  }
  return [
    first,
    [
      {
        kind: 'select',
        placeholder: 'Put right what does not fit',
        press: press('reading-pick', {}),
        options: odd.slice(0, 25).map((one) => ({ label: label(one), value: String(one.entryId) })),
      },
    ],
  ];
}
