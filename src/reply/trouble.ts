import {
  type ChangedThing,
  changedThings,
  type FirstAid,
  type Instant,
  type LocalDay,
  type Person,
  type SeenThing,
  seenThings,
  type Troubled,
  type Tub,
} from '../domain/index.ts';
import { press } from './acts.ts';
import { freeLine } from './animals.ts';
import { button, type Card, type ControlRow, type Select } from './card.ts';
import { beyondLines, newWaterLines, poisonLines, stepLines } from './firstAid.ts';
import { undoButton } from './undoButton.ts';
import { counted, dateWords, litresWords, loggedWords, sinceWords, someWords, type Voice } from './voice.ts';

const changedLabels: Record<ChangedThing, string> = {
  water: 'Water changed',
  untreated: 'New water not treated, or from elsewhere',
  'top-up': 'Topped up',
  food: 'New food, or much of it',
  plants: 'New plants, moss, leaves or wood',
  animals: 'New animals',
  remedy: 'A medicine, snail or algae remedy',
  metal: 'Copper, brass or other metal',
  air: 'The air stopped: pump, stone, power',
  heat: 'Heat, or sun on the tub',
  spray: 'Spray, paint, cleaner or smoke in the room',
  cleaning: 'Filter, foam or gravel cleaned',
  nothing: 'Nothing that we know of',
};

const seenLabels: Record<SeenThing, string> = {
  'no bubbles': 'No bubbles',
  'at the surface': 'At the surface, or climbing out',
  'lying still': 'Many lie still',
  cramped: 'Cramped, twitching or darting',
  'white ring': 'White ring, or stuck in the moult',
  milky: 'Milky bodies',
  growths: 'Growths or worms on them',
  cloudy: 'Cloudy water, film or smell',
  'many dead': 'Many dead at once',
  'others lively': 'The others are lively',
};

/** The letter that stands for a thing in a custom id, which holds 100 characters. */
const letterOf = (thing: ChangedThing): string => String.fromCharCode(97 + changedThings.indexOf(thing));

/** What was chosen as it travels in a custom id. */
export const changedCode = (changed: readonly ChangedThing[]): string => changed.map(letterOf).join('');
export const changedFromCode = (code: string): ChangedThing[] =>
  changedThings.filter((thing) => code.includes(letterOf(thing)));

/** What of the choices of a select is known; "nothing" beside something else is not meant. */
export function changedFromValues(values: readonly string[]): ChangedThing[] {
  const known = changedThings.filter((thing) => values.includes(thing));
  return known.length > 1 ? known.filter((thing) => thing !== 'nothing') : known;
}
export const seenFromValues = (values: readonly string[]): SeenThing[] =>
  seenThings.filter((thing) => values.includes(thing));

/** Where the first question stands: it is answered there, or under the card of a loss, which stays. */
export type TroubleFrom = 'ask' | 'loss';

export const changedSelect = (tub: number, from: TroubleFrom): Select => ({
  kind: 'select',
  placeholder: 'What changed in the last 72 h?',
  press: press('trouble-changed', { tub, from }),
  options: changedThings.map((value) => ({ label: changedLabels[value], value })),
  max: changedThings.length,
});

interface TroubleAsked {
  readonly tub: Tub;
  readonly changes: readonly { readonly litres: number; readonly percent: number; readonly at: Instant }[];
  readonly topUps: readonly { readonly litres: number; readonly at: Instant }[];
  readonly movedIn: number;
  readonly deadInAWeek: number;
}

/** The first question, with what the books know already. */
export function troubleChangedCard(voice: Voice, asked: TroubleAsked): Card {
  const { tub, changes, topUps, movedIn, deadInAWeek } = asked;
  const known = [
    ...changes.map(
      ({ litres, percent, at }) => `${litresWords(voice, litres)} (${percent} %) changed ${sinceWords(voice, at)}`,
    ),
    ...topUps.map(({ litres, at }) => `${litresWords(voice, litres)} topped up ${sinceWords(voice, at)}`),
    ...(movedIn > 0 ? [`${counted(movedIn, 'animal')} moved in`] : []),
    ...(deadInAWeek > 0 ? [`${deadInAWeek} found dead in seven days`] : []),
  ];
  return {
    title: `${tub.name}: what changed in 72 hours?`,
    why: [
      'More air first, if it can be had: it never harms',
      ...known.map((line) => `In the books: ${line}`).slice(0, 5),
    ],
    next: 'Choose all that fits; then one more question',
    controls: [[changedSelect(tub.id, 'ask')]],
  };
}

/** The second question. */
export const troubleSeenCard = (tub: Tub, changed: readonly ChangedThing[]): Card => ({
  title: `${tub.name}: what is seen?`,
  why: [`Changed: ${wordsOf(changed, changedLabels)}`],
  next: 'Choose all that fits; first aid comes at once',
  controls: [
    [
      {
        kind: 'select',
        placeholder: 'What is seen?',
        press: press('trouble-seen', { tub: tub.id, changed: changedCode(changed) }),
        options: seenThings.map((value) => ({ label: seenLabels[value], value })),
        max: seenThings.length,
      },
    ],
  ],
});

/** What the question turns into once it is answered. */
export const troubleAnsweredCard = (tub: Tub, said: Troubled): Card => ({
  title: `${tub.name}: first aid is in the channel`,
  why: saidLines(said),
});

const wordsOf = <T extends string>(things: readonly T[], labels: Record<T, string>): string =>
  someWords(
    things.map((thing) => labels[thing].split(/,| or /)[0]?.toLowerCase() ?? thing),
    2,
  );

const saidLines = ({ changed, seen }: Troubled): string[] => [
  `Changed: ${wordsOf(changed, changedLabels)}`,
  `Seen: ${wordsOf(seen, seenLabels)}`,
];

interface TroubleState {
  readonly tub: Tub;
  readonly trouble: Troubled & { readonly at: Instant; readonly by: string; readonly entryId: number };
  readonly aid: FirstAid;
  readonly offSale: { readonly until: LocalDay | null } | null;
  readonly looksTo: LocalDay;
  readonly others: readonly Person[];
}

/**
 * First aid in order with its reasons, by what was measured up to now; the partner is called when it starts.
 * @param lineFree animals of its line that may still be promised
 */
export function firstAidCard(voice: Voice, state: TroubleState, lineFree: number, isNew: boolean): Card {
  const { tub, trouble, aid, offSale, looksTo, others } = state;
  const change = aid.steps.find((step) => step.do === 'change');
  return {
    title: `${tub.name}: act, first aid in this order`,
    why: [
      ...stepLines(voice, aid.steps),
      ...newWaterLines(voice, aid.steps),
      ...poisonLines(aid.steps),
      ...beyondLines(aid.beyond),
      offSale === null ? `${tub.name} is on sale again` : 'Off sale, moss and leaves too, until you lift it',
      freeLine(tub, lineFree),
      `On the rota: a test the day after, two looks a day to ${dateWords(voice, looksTo)}`,
      ...saidLines(trouble),
      loggedWords(voice, trouble.by, trouble.at),
    ],
    controls: controlsOf(voice, state, change?.litres ?? null, lineFree),
    ...(isNew && others.length > 0 && { mention: others.map(({ userId }) => userId) }),
  };
}

function controlsOf(
  voice: Voice,
  { tub, trouble, offSale }: TroubleState,
  litres: number | null,
  lineFree: number,
): ControlRow[] {
  return [
    [
      ...(litres === null
        ? []
        : [button(`Changed ${litresWords(voice, litres)}`, press('change-now', { tub: tub.id, litres }), 'main')]),
      button('Log a reading', press('reading-form', { tub: tub.id }), litres === null ? 'main' : 'plain'),
      button('First aid again', press('trouble-show', { tub: tub.id })),
      undoButton(trouble.entryId),
    ],
    [
      ...(lineFree < 0 ? [button('Sales', press('sale-list', {}))] : []),
      ...(offSale === null ? [] : [button('Well again: lift the hold', press('hold-lift', { tub: tub.id }))]),
      button('Answer anew', press('trouble-ask', { tub: tub.id })),
    ],
  ];
}

/** The card of a loss that leads to the questions, or to the first aid that runs already. */
export function withTrouble(card: Card, tub: Tub, isRunning: boolean): Card {
  const controls = card.controls ?? [];
  if (!isRunning) return { ...card, controls: [...controls, [changedSelect(tub.id, 'loss')]] };
  return { ...card, controls: [...controls, [button('First aid', press('trouble-show', { tub: tub.id }), 'main')]] };
}

/** "In trouble: A3 (day 2 of 3)", for the posts. */
export const troubledLines = (
  troubled: readonly { readonly tub: Tub; readonly day: number; readonly of: number }[],
): string[] =>
  troubled.length === 0
    ? []
    : [
        `In trouble: ${troubled
          .slice(0, 4)
          .map(({ tub, day, of }) => `${tub.name} (day ${day} of ${of})`)
          .join(', ')}${troubled.length > 4 ? `, and ${troubled.length - 4} more` : ''}`,
      ];
