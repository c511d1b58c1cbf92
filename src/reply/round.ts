import { type ChoreTarget, isMeasured, type RoundStop, type Tub } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card } from './card.ts';
import { mixWords, type WaterToPrepare } from './prepare.ts';
import { nobody, type RotaLine, taskList, taskWords } from './rotaWords.ts';
import { undoButton } from './undoButton.ts';
import { counted, figure, listWords, litresWords, type Voice } from './voice.ts';

interface RoundAt {
  readonly stop: RoundStop;
  readonly key: string;
  readonly tub: Tub | null;
  readonly items: readonly RotaLine[];
  readonly water: WaterToPrepare | null;
  readonly jugLitres: number;
  readonly isInTrouble: boolean;
  readonly heldFor: string | null;
  readonly place: number;
}

interface RoundState {
  readonly at: RoundAt | null;
  readonly stops: number;
  readonly open: readonly RotaLine[];
  readonly done: number;
}

/** What was ticked by the tap before: told in a line, and undone by a button. */
export interface RoundTick {
  readonly by: string;
  readonly what: readonly { readonly chore: string; readonly target: ChoreTarget }[];
  readonly entries: readonly number[];
}

export const roundButton = (): Button => button('Start the round', press('round', {}));

/** A notification shows so many characters; a stop with a long name leaves out what is to be done there. */
const titleLength = 46;
/** Buttons for single chores at a stop; more are behind the one for all. */
const mostSingle = 3;

/** The stop of the round at which one stands, or its end. */
export function roundCard(voice: Voice, state: RoundState, before: RoundTick | null): Card {
  return state.at === null ? endCard(voice, state, before) : stopCard(voice, state.at, state.stops, before);
}

function stopCard(voice: Voice, at: RoundAt, stops: number, before: RoundTick | null): Card {
  const [first, ...others] = at.items;
  const where = `Round ${at.place} of ${stops}: ${placeName(at)}`;
  const act = first === undefined ? '' : `, ${actWords(voice, first)}`;
  return {
    title: where.length + act.length <= titleLength ? where + act : where,
    why: [
      ...(at.water === null ? [] : [waterLine(voice, at.water, at.jugLitres)]),
      ...(where.length + act.length <= titleLength || first === undefined ? [] : [first.due.chore.name]),
      ...(others.length === 0 ? [] : [`Also here: ${listWords(others.map(({ due }) => due.chore.name))}`]),
      ...(at.isInTrouble ? ['In trouble: look twice, its own net, feed nothing'] : []),
      ...(at.heldFor === null || at.isInTrouble ? [] : [`Off sale: ${at.heldFor}; its own net`]),
      ...whoLines(at.items),
      ...beforeLines(before),
    ],
    controls: [doneButtons(voice, at), wayButtons(voice, at, before)],
  };
}

function placeName({ stop, tub }: RoundAt): string {
  if (stop.of === 'business') return 'the rest';
  return stop.of === 'rack' ? `rack ${stop.rack}` : (tub?.name ?? '');
}

/** "change 7.5 L", "feed". */
const actWords = (voice: Voice, { due, litres }: RotaLine): string =>
  due.chore.act === 'change' && litres !== null ? `change ${litresWords(voice, litres)}` : due.chore.name;

/** "7.5 L is 3.75 jugs of 2 L (4.9 tap + 2.6 pure)". */
function waterLine(voice: Voice, { litres, mix }: WaterToPrepare, jugLitres: number): string {
  const jugs = Math.round((4 * litres) / jugLitres) / 4;
  const words = `${figure(jugs, 2)} ${jugs <= 1 ? 'jug' : 'jugs'} of ${litresWords(voice, jugLitres)}`;
  return `${litresWords(voice, litres)} is ${words}${mix === null ? '' : ` (${mixWords(mix)})`}`;
}

const whoLines = (items: readonly RotaLine[]): string[] => {
  const names = [...new Set(items.map(({ partner }) => partner ?? nobody))];
  return names.length === 0 ? [] : [`On the rota for ${listWords(names)}`];
};

const beforeLines = (before: RoundTick | null): string[] =>
  before === null || before.what.length === 0
    ? []
    : [
        `Just done by ${before.by}: ${listWords(before.what.map(({ chore, target }) => taskWords({ name: chore }, target)))}`,
      ];

/** The likely act first: each chore here, and all of them at once. */
function doneButtons(voice: Voice, { key, items }: RoundAt): Button[] {
  const ticks = items.filter(({ due }) => !isMeasured(due.chore));
  const single = ticks.slice(0, mostSingle).map((line, index) => doneButton(voice, key, line, index === 0));
  const all =
    ticks.length > 1
      ? [button(`All ${ticks.length} done`, press('round-done', { day: voice.today, at: key, chore: 0 }), 'main')]
      : [];
  const measured = items.find(({ due }) => isMeasured(due.chore));
  const reading =
    measured?.due.target.of === 'tub'
      ? [
          button(
            'Log the reading',
            press('reading-form', { tub: measured.due.target.tubId }),
            ticks.length === 0 ? 'main' : 'plain',
          ),
        ]
      : [];
  return [...single, ...all, ...reading];
}

const doneButton = (voice: Voice, at: string, line: RotaLine, isMain: boolean): Button =>
  button(
    doneWord(voice, line),
    press('round-done', { day: voice.today, at, chore: line.due.chore.id }),
    isMain ? 'main' : 'plain',
  );

/** "Changed 7.5 L", "Fed rack A", "front glass done". */
function doneWord(voice: Voice, { due, litres }: RotaLine): string {
  const { chore, target } = due;
  if (chore.act === 'change' && litres !== null) return `Changed ${litresWords(voice, litres)}`;
  const rack = target.of === 'rack' ? ` rack ${target.rack}` : '';
  if (chore.name === 'feed') return `Fed${rack}`;
  if (chore.act === 'topup') return `Topped up${rack}`;
  return `${chore.name} done`;
}

function wayButtons(voice: Voice, { key, tub }: RoundAt, before: RoundTick | null): Button[] {
  return [
    button('Next', press('round-next', { day: voice.today, at: key })),
    ...(tub === null ? [] : [button('Trouble', press('trouble-show', { tub: tub.id }))]),
    ...undoButtons(before),
    button('Leave the round', press('round-leave', {})),
  ];
}

function undoButtons(before: RoundTick | null): Button[] {
  const [first, ...others] = before?.entries ?? [];
  if (first === undefined) return [];
  if (others.length === 0) return [undoButton(first)];
  const ids = [first, ...others];
  return [
    button(`Undo ${ids.length}`, press('undo-together', { from: Math.min(...ids), to: Math.max(...ids) }), 'danger'),
  ];
}

/** Goes on in the same message, from the first stop that has something open. */
const onButton = (voice: Voice, label: string): Button =>
  button(label, press('round-next', { day: voice.today, at: '' }), 'main');

/** What the message turns into at the end, or when one leaves: what is left, and the way on for whoever takes it up. */
function endCard(voice: Voice, { open, done }: RoundState, before: RoundTick | null): Card {
  return {
    title:
      open.length === 0
        ? `Round done, all ${counted(done, 'chore')}`
        : `Round over: ${counted(open.length, 'chore')} left`,
    why: [...leftLines(open), ...beforeLines(before)],
    controls: [
      [
        ...(open.length > 0 ? [onButton(voice, 'Go round what is left')] : []),
        ...undoButtons(before),
        button('Today', press('rota-today', {})),
      ],
    ],
  };
}

/** The round as it was left by somebody; the other one takes it up where something is open. */
export function roundLeftCard(voice: Voice, { open, done }: RoundState, by: string): Card {
  if (open.length === 0) return endCard(voice, { at: null, stops: 0, open, done }, null);
  return {
    title: `Round left: ${counted(done, 'chore')} done, ${open.length} to do`,
    why: [`Left by ${by}`, ...leftLines(open)],
    controls: [[onButton(voice, 'Take it up'), button('Today', press('rota-today', {}))]],
  };
}

/** Chores named of what is left; all of them, and how late they are, are behind Today. */
const mostLeft = 3;

const leftLines = (open: readonly RotaLine[]): string[] =>
  open.length === 0
    ? []
    : [
        `Left: ${taskList(
          open.map((line) => ({ ...line, lateDays: 0 })),
          mostLeft,
        )}`,
      ];
