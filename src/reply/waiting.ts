import type { Line, LocalDay, Waiting, WaitingFault, WaitingOffer } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card, type Form } from './card.ts';
import { cut } from './cut.ts';
import { undoButton } from './undoButton.ts';
import { ageWords, counted, dateWords, loggedWords, momentWords, type Voice } from './voice.ts';

export interface WaitingList {
  readonly line: Line;
  readonly free: number | null;
  readonly offers: readonly WaitingOffer[];
  readonly opensFor: LocalDay | null;
}

/** Rows of a list that fit a phone. */
const mostRows = 20;
/** Choices of a list to pick from. */
const mostChoices = 25;

/** The waiting lists: of one line place by place, of several a row each. */
export function waitingCard(voice: Voice, lists: readonly WaitingList[], linesKnown: number): Card {
  const [only, another] = lists;
  if (only === undefined) {
    return {
      title: 'Nobody is waiting',
      ...(linesKnown > 0 && {
        next: 'Put somebody on the list: line, number and buyer',
        controls: [[waitButton(0)]],
      }),
    };
  }
  if (another === undefined) return lineCard(voice, only);
  const people = lists.reduce((sum, { offers }) => sum + offers.length, 0);
  const ready = lists.flatMap(({ line, offers }) => readyIn(offers).map((offer) => ({ line, ...offer })));
  const [first] = ready;
  return {
    title: `Waiting: ${people}, ${ready.length === 0 ? 'none can be served now' : `${ready.length} can be served now`}`,
    why: [...lists.slice(0, 5).map((list) => nextLine(list)), ...opensLines(voice, only)],
    table: [
      rowOf('line', ['wait', 'want', 'free']),
      ...lists
        .slice(0, mostRows)
        .map(({ line, free, offers }) =>
          rowOf(line.name, [String(offers.length), String(wantedIn(offers)), free === null ? '?' : String(free)]),
        ),
    ],
    controls: [
      ...(first === undefined ? [[waitButton(0)]] : [[sellButton(first.line, first), waitButton(0)]]),
      [
        {
          kind: 'select',
          placeholder: 'Show a line',
          press: press('waiting-line', {}),
          options: lists.slice(0, mostChoices).map(({ line, offers }) => ({
            label: line.name,
            value: String(line.id),
            description: `${counted(offers.length, 'buyer')}, ${counted(wantedIn(offers), 'animal')}`,
          })),
        },
      ],
    ],
  };
}

function lineCard(voice: Voice, list: WaitingList): Card {
  const { line, free, offers } = list;
  const [first] = offers;
  if (first === undefined) {
    return {
      title: `${line.name}: nobody is waiting`,
      why: [freeWords(list)],
      controls: [[waitButton(line.id)]],
    };
  }
  const ready = readyIn(offers);
  const shown = offers.slice(0, mostRows);
  const [next] = ready;
  return {
    title: `${line.name}: ${offers.length} waiting for ${wantedIn(offers)}`,
    why: [nextLine(list, false), freeWords(list), ...opensLines(voice, list)],
    table: [
      'no. buyer        wants  now since',
      ...shown.map(
        ({ waiting, offer }, index) =>
          `${String(index + 1).padStart(2)}  ${clipped(waiting.buyer, 12).padEnd(12)}${String(waiting.number).padStart(6)}${String(offer).padStart(5)} ${ageWords(voice, waiting.at)}`,
      ),
      ...(offers.length > shown.length ? [`and ${offers.length - shown.length} more`] : []),
    ].map((row) => row.slice(0, 38)),
    ...(next === undefined && free === null && { next: `Count a tub of ${line.name}` }),
    controls: [
      [...(next === undefined ? [] : [sellButton(line, next)]), waitButton(line.id)],
      [
        {
          kind: 'select',
          placeholder: 'Sell to one, or take off',
          press: press('waiting-pick', {}),
          options: offers.slice(0, mostChoices).map(({ waiting, offer }) => ({
            label: waiting.buyer.slice(0, 80),
            value: String(waiting.id),
            description: `wants ${waiting.number}, ${offer === 0 ? 'none left for them now' : `${offer} could go now`}`,
          })),
        },
      ],
    ],
  };
}

/** One place on the list, with what can be done about it. */
export function waitingPlaceCard(
  voice: Voice,
  list: WaitingList,
  at: number,
  { waiting, offer, extras }: WaitingOffer,
): Card {
  return {
    title: `${clipped(waiting.buyer, 16)} waits for ${waiting.number} ${list.line.name}`,
    why: [
      at === 0 ? 'Next on the list' : `${counted(at, 'buyer')} before them`,
      offer === 0 ? `Nothing to offer them: ${freeWords(list)}` : `Now ${offer} + ${counted(extras, 'extra')} could go`,
      `Put on the list by ${waiting.by} ${momentWords(voice, waiting.loggedAt)}`,
    ],
    controls: [
      [
        ...(offer === 0 ? [] : [sellButton(list.line, { waiting, offer, extras })]),
        button('Take off the list', press('waiting-off', { waiting: waiting.id }), offer === 0 ? 'main' : 'plain'),
        listButton(list.line),
      ],
    ],
  };
}

/** A buyer just put on the list, or given another number at the same place. */
export function waitingAddedCard(
  voice: Voice,
  by: string,
  added: {
    readonly list: WaitingList;
    readonly buyer: string;
    readonly number: number;
    readonly before: number;
    readonly entryId: number;
  },
): Card {
  const { list, buyer, number, before, entryId } = added;
  const own = list.offers[before];
  return {
    title: `${clipped(buyer, 16)} waits for ${number} ${list.line.name}`,
    why: [
      before === 0 ? 'Next on the list' : `${counted(before, 'buyer')} before them`,
      freeWords(list),
      ...opensLines(voice, list),
      loggedWords(voice, by),
    ],
    controls: [
      [
        ...(own === undefined || own.offer === 0 ? [] : [sellButton(list.line, own)]),
        listButton(list.line),
        undoButton(entryId),
      ],
    ],
  };
}

/** A place taken off the list, and who is next. */
export function waitingOffCard(
  voice: Voice,
  by: string,
  off: { readonly waiting: Waiting; readonly list: WaitingList; readonly entryId: number },
): Card {
  const { waiting, list, entryId } = off;
  return {
    title: `${clipped(waiting.buyer, 16)} is off the list for ${list.line.name}`,
    why: [
      `Wanted ${waiting.number}`,
      list.offers.length === 0 ? 'Nobody else is waiting' : nextLine(list, false),
      loggedWords(voice, by),
    ],
    controls: [[listButton(list.line), undoButton(entryId)]],
  };
}

/** The place was sold to or taken off before. */
export const waitingGoneCard: Card = {
  title: 'That place is already off the list',
  why: ['It was sold to or taken off since; nothing was logged'],
  next: 'Look at the list as it is now',
  controls: [[button('Waiting list', press('waiting-show', { line: 0 }), 'main')]],
};

/** Somebody to put on the list; a line that was looked at stands there already. */
export const waitingForm = (line: string | undefined): Form => ({
  title: 'Put on the waiting list',
  press: press('waiting-send', {}),
  fields: [
    { id: 'buyer', label: 'Who waits', lines: 'one', required: true },
    { id: 'number', label: 'How many', lines: 'one', required: true },
    { id: 'line', label: 'Of which line', lines: 'one', required: true, ...(line !== undefined && { value: line }) },
  ],
});

export function waitingRefusal(voice: Voice, { buyer, line, number, typed, at, by }: WaitingFault): Card {
  const isSame = number === typed;
  return {
    title: `${clipped(buyer, 12)} already waits for ${number} ${line}`,
    why: [
      `logged by ${by} ${momentWords(voice, at)}`,
      isSame ? 'Nothing was logged' : 'Not logged yet; the place on the list stays',
    ],
    ...(!isSame && { offers: [{ label: `Make it ${typed}`, patch: { change: true } }] }),
  };
}

/** "Waiting for jade: 3, next kestrel 20 (can go now)": a line each, for posts. */
export const waitingLines = (lists: readonly WaitingList[], most = 3): string[] =>
  lists.slice(0, most).map((list) => `Waiting, ${nextLine(list)}`);

const readyIn = (offers: readonly WaitingOffer[]): WaitingOffer[] => offers.filter(({ offer }) => offer > 0);
const wantedIn = (offers: readonly WaitingOffer[]): number =>
  offers.reduce((sum, { waiting }) => sum + waiting.number, 0);

/** "jade: next kestrel, all 20 can go now". */
function nextLine({ line, offers }: WaitingList, named = true): string {
  const [first] = offers;
  if (first === undefined) return `${line.name}: nobody`;
  const { waiting, offer } = first;
  const can =
    offer === waiting.number
      ? `all ${offer} can go now`
      : offer === 0
        ? `wants ${waiting.number}, none can go now`
        : `${offer} of ${waiting.number} can go now`;
  return `${named ? `${clipped(line.name, 16)}: next` : 'Next:'} ${clipped(waiting.buyer, 16)}, ${can}`;
}

function freeWords({ free }: WaitingList): string {
  if (free === null) return 'Not counted yet, so nothing is offered';
  return free < 0 ? `${-free} promised too many` : `${free} free to promise, extras not yet taken off`;
}

const opensLines = (voice: Voice, { opensFor }: WaitingList): string[] =>
  opensFor === null ? [] : [`Closed now; a parcel could leave ${dateWords(voice, opensFor)}`];

const sellButton = (line: Line, { waiting, offer }: WaitingOffer): Button =>
  button(
    cut(`Sell ${offer} ${line.name} to ${waiting.buyer}`),
    press('waiting-sell', { waiting: waiting.id, number: offer }),
    'main',
  );

/** Opens the form for somebody who is to wait; line 0: any. */
export const waitButton = (line: number): Button => button('Put on waiting list', press('waiting-form', { line }));

export const listButton = (line: Pick<Line, 'id'>): Button =>
  button('Waiting list', press('waiting-show', { line: line.id }));

const clipped = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most - 1)}…` : text);

const rowOf = (name: string, cells: readonly string[]): string =>
  `${clipped(name, 14).padEnd(14)}${cells.map((cell) => cell.padStart(7)).join('')}`;
