import {
  dayMs,
  dayOf,
  type Explanation,
  type Instant,
  type OddReading,
  type ReadingFix,
  type Tub,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button } from './card.ts';
import { rangeWords } from './nitrate.ts';
import { dateWords, dayWords, figure, litresWords, mgLWords, type Voice } from './voice.ts';

/** An explanation this unlikely beside the others is not named. */
const leastShare = 0.12;
const mostNamed = 2;

/** That a reading does not follow, what was to be expected, and what may lie behind it. */
export function oddLines(voice: Voice, tub: Tub, odd: OddReading): string[] {
  const named = odd.explanations
    .filter(({ share }, place) => place === 0 || share >= leastShare)
    .slice(0, mostNamed)
    .map((explanation) => explanationWords(voice, tub, explanation));
  return [
    `Does not fit: ${rangeWords(odd.expectedMgL)} mg/L was to be expected`,
    ...named.map((words, place) => `${place === 0 ? 'Likely' : 'Or'} ${words}`),
  ];
}

/** "Nitrate 5 mg/L of Tue 4 May does not fit, about 22 was expected". */
export const oddShort = (voice: Voice, odd: OddReading): string =>
  `Nitrate ${mgLWords(odd.readMgL)} of ${dateWords(voice, dayOf(odd.at, voice.zone))} does not fit: ${rangeWords(odd.expectedMgL)} expected`;

const dayOfNumber = (voice: Voice, day: number): string =>
  dayWords(voice, dayOf(new Date(day * dayMs).toISOString() as Instant, voice.zone));

function explanationWords(voice: Voice, tub: Tub, explanation: Explanation): string {
  switch (explanation.of) {
    case 'unlogged-change':
      return `a change that was not logged, about ${litresWords(voice, Math.max(0.5, Math.round(explanation.fraction * tub.netLitres * 2) / 2))}`;
    case 'double-change':
      return `the change of ${dayOfNumber(voice, explanation.day)} made twice`;
    case 'change-not-made':
      return `the change of ${dayOfNumber(voice, explanation.day)} logged but not made`;
    case 'misread':
      return `a wrong step: ${mgLWords(explanation.expectedMgL)} fits`;
    case 'nitrogen':
      return `nitrogen typed for nitrate: that is ${mgLWords(explanation.nitrateMgL)}`;
    case 'jump':
      return 'food or a dead animal rotting: look for it';
  }
}

/** What puts the books right, each on a button. */
export const fixButtons = (voice: Voice, odd: OddReading): Button[] =>
  odd.fixes.map((fix) => fixButton(voice, odd, fix));

function fixButton(voice: Voice, { entryId }: OddReading, fix: ReadingFix): Button {
  switch (fix.of) {
    case 'reading':
      return button(
        fix.because === 'nitrogen'
          ? `It was nitrogen: ${mgLWords(fix.nitrateMgL)}`
          : `It was ${mgLWords(fix.nitrateMgL)}`,
        press('reading-mend', { entry: entryId, nitrate: fix.nitrateMgL }),
      );
    case 'missed-change':
      return button(
        fix.again ? `${dayShort(voice, fix.at)}: changed twice` : `Log a missed change, ${figure(fix.litres)} L`,
        press('change-missed', { entry: entryId, litres: fix.litres, at: Date.parse(fix.at) }),
      );
    case 'change-not-made':
      return button(`${dayShort(voice, fix.at)}: not changed`, press('undo-ask', { entry: fix.changeEntryId }));
  }
}

const dayShort = (voice: Voice, at: Instant): string => dateWords(voice, dayOf(at, voice.zone));
