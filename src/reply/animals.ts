import {
  type CountLogged,
  type CountMethod,
  type HoldSet,
  type LocalDay,
  type LossLogged,
  type MoveLogged,
  type Range,
  type Surprise,
  severalDead,
  type Tub,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { whenLine } from './change.ts';
import { undoButton } from './undoButton.ts';
import { counted, dateWords, dayWords, figure, sinceWords, type Voice } from './voice.ts';

/** How animals were counted, in words. */
export const countedWords: Record<CountMethod, string> = {
  full: 'counted in full',
  dish: 'counted at the dish',
  glance: 'counted at a glance',
  passes: 'counted by passes',
};

export function countCard(voice: Voice, by: string, logged: CountLogged, lineFree: number | null): Card {
  const { tub, saleable, juveniles, berried } = logged;
  return {
    title: `${tub.name}: ${saleable} saleable ${tub.lineName}`,
    why: [
      [
        countedWords[logged.method],
        ...(juveniles === null ? [] : [counted(juveniles, 'juvenile')]),
        ...(berried === null ? [] : [`${berried} berried`]),
        `${figure(saleable / tub.netLitres)} a litre`,
      ].join(' · '),
      ...believedLines(voice, logged),
      ...(lineFree === null ? [] : [freeLine(tub, lineFree)]),
      whenLine(voice, by, logged.at),
    ],
    controls: [
      [
        button('Stock', press('stock', {}), 'main'),
        ...(logged.surprise !== null && logged.method !== 'full'
          ? [button('Count by passes', press('passes-form', { tub: tub.id, caught: '' }))]
          : []),
        undoButton(logged.entryId),
      ],
    ],
  };
}

/** "55 (39–85)"; the range is left out where there is hardly any. */
export const rangeOfAnimals = ({ low, median, high }: Range): string =>
  high - low < 2 ? String(median) : `${median} (${low}–${high})`;

/** What is believed now, and before where that was otherwise; a surprise; a newer count that stands. */
export function believedLines(voice: Voice, { now, expected, surprise, newer, dish, saleable }: CountLogged): string[] {
  const own = dish === null || dish.pairs === 0 ? '' : `, by ${counted(dish.pairs, 'full count')} near a dish count`;
  const isNews = now !== null && (expected !== null || now.low !== saleable || now.high !== saleable);
  return [
    ...(isNews && now !== null
      ? [`Likely ${rangeOfAnimals(now)} in the tub${expected === null ? own : `; before: ${rangeOfAnimals(expected)}`}`]
      : []),
    ...(surprise === null ? [] : [surpriseLine(surprise)]),
    ...(newer === null ? [] : [`A newer count stands: ${newer.saleable}, ${sinceWords(voice, newer.at)}`]),
  ];
}

/** "Not expected: 30 to 44; kept and believed". */
function surpriseLine({ of, expected: { low, high } }: Surprise): string {
  const what = of === 'saleable' || of === 'taken' ? '' : ` of the ${of}`;
  return `Not expected${what}: ${low} to ${high} were; the count is kept and believed`;
}

export const freeLine = (tub: Tub, free: number): string =>
  free < 0
    ? `${tub.lineName}: ${-free} more are promised than can be given`
    : `${tub.lineName}: ${free} free to promise now`;

export function moveCard(voice: Voice, by: string, logged: MoveLogged): Card {
  const { from, to, number, left, there } = logged;
  const mixed = from.lineId !== to.lineId;
  const after = (tub: Tub, saleable: number | null): string => `${tub.name} ${saleable ?? 'not counted yet'}`;
  return {
    title: `${number} ${logged.stage === 'juvenile' ? 'young ' : ''}${from.lineName}: ${from.name} → ${to.name}`,
    why: [
      `Saleable now: ${after(from, left)} · ${after(to, there)}`,
      ...(mixed ? [`${to.name} is ${to.lineName}: the lines are mixed from now on`] : []),
      whenLine(voice, by, logged.at),
    ],
    next: mixed
      ? `Take ${to.name} off sale with /hold until you know what its young are`
      : 'Rinse or change the net before the next line',
    controls: [[button('Stock', press('stock', {})), undoButton(logged.entryId)]],
  };
}

export function lossCard(voice: Voice, by: string, logged: LossLogged): Card {
  const { tub, number, cause, left, inAWeek } = logged;
  const many = inAWeek >= severalDead;
  return {
    title: `${tub.name}: ${many ? 'act, ' : ''}${number} found dead`,
    why: [
      ...(cause === null ? [] : [`Cause: ${cause}`]),
      ...(inAWeek > number ? [`${inAWeek} in seven days`] : []),
      left === null ? 'Animals not counted yet' : `About ${left} saleable left`,
      whenLine(voice, by, logged.at),
    ],
    next: many
      ? 'Test ammonia, nitrite and temperature now; more air; feed nothing'
      : 'Look at the others: lively, clear, no white ring?',
    controls: [
      [
        button('Log a reading', press('reading-form', { tub: tub.id }), many ? 'main' : 'plain'),
        ...(many ? [button('Take off sale', press('hold-now', { tub: tub.id }))] : []),
        undoButton(logged.entryId),
      ],
    ],
  };
}

export function holdCard(voice: Voice, by: string, logged: HoldSet, lineFree: number): Card {
  const { tub, until, lifted } = logged;
  const end =
    until === null ? 'until you lift it' : `to ${until === voice.today ? 'the end of today' : dateWords(voice, until)}`;
  return {
    title: lifted ? `${tub.name}: back on sale` : `${tub.name}: off sale ${end}`,
    why: [...(lifted ? [] : [`Reason: ${logged.reason}`]), freeLine(tub, lineFree), whenLine(voice, by, voice.now)],
    ...(lineFree < 0 && { next: 'Look at the open sales' }),
    controls: [
      [
        ...(lineFree < 0 ? [button('Sales', press('sale-list', {}), 'main')] : []),
        ...(lifted ? [] : [button('Lift the hold', press('hold-lift', { tub: tub.id }))]),
        button('Stock', press('stock', {})),
        undoButton(logged.entryId),
      ],
    ],
  };
}

/** "until Tue 13 Apr", for a tub off sale. */
export const holdEndWords = (voice: Voice, until: LocalDay | null): string =>
  until === null ? 'until lifted' : `until ${dayWords(voice, until)}`;
