import type { PassesLogged } from '../domain/index.ts';
import { press } from './acts.ts';
import { believedLines, freeLine } from './animals.ts';
import { type Button, button, type Card } from './card.ts';
import { whenLine } from './change.ts';
import { undoButton } from './undoButton.ts';
import type { Voice } from './voice.ts';

/** Removal passes as their options and fields are called. */
export const passNames = ['first', 'second', 'third', 'fourth'] as const;

/** A count by removal passes: the estimate with its range, how much a pass takes, and whether one more is worth it. */
export function passesCard(voice: Voice, by: string, logged: PassesLogged, lineFree: number): Card {
  const { tub, saleable, catches, estimate } = logged;
  const next = nextStep(logged);
  const stock = button('Stock', press('stock', {}), next.pass === null ? 'main' : 'plain');
  return {
    title: `${tub.name}: ${saleable} saleable${bracketed(estimate)}`,
    why: [
      `Counted by passes: ${catches.join(', ')}; each took about ${Math.round(100 * estimate.capture)} %`,
      ...nextPassLine(logged),
      ...believedLines(voice, logged),
      freeLine(tub, lineFree),
      whenLine(voice, by, logged.at),
    ],
    ...(next.words !== null && { next: next.words }),
    controls: [[...(next.pass === null ? [] : [next.pass]), stock, undoButton(logged.entryId)]],
  };
}

/** " (115–141)", nothing where there is no doubt. */
const bracketed = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  low === high ? '' : ` (${low}–${high})`;

/** What one more pass would catch and do to the range. */
function nextPassLine({ next, estimate, saleable }: PassesLogged): string[] {
  if (saleable === estimate.caught && estimate.low === estimate.high) return ['None is likely to be left in the tub'];
  if (next === null) return [];
  if (!next.helps) return ['One more pass would tell little more'];
  const range = next.low === next.high ? `${next.low}` : `${next.low}–${next.high}`;
  return [`One more pass: about ${next.catch} in the net, then ${range} in all`];
}

function nextStep({ tub, catches, estimate, next }: PassesLogged): {
  readonly words: string | null;
  readonly pass: Button | null;
} {
  const pass = next?.helps === true ? nextPassButton(tub.id, catches, 'main') : null;
  if (!estimate.even) return { words: 'Check that each pass had the same effort; else count again', pass };
  return { words: pass === null ? null : 'Net once more with the same effort, before you put them back', pass };
}

/** Opens the form of the passes with those that were netted, so that one can be added. */
export const nextPassButton = (tubId: number, catches: readonly number[], tone: 'main' | 'plain'): Button =>
  button(
    `Add the ${passNames[catches.length] ?? 'last'} pass`,
    press('passes-form', { tub: tubId, caught: catches.join('-') }),
    tone,
  );
