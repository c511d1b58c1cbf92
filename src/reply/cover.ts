import type { Absence, LocalDay } from '../domain/index.ts';
import { press } from './acts.ts';
import { type Button, button, type Card } from './card.ts';
import { absenceWords } from './dispatchReasons.ts';
import { dateWords, figure, litresWords, someWords, tempWords, type Voice } from './voice.ts';

interface CoverTub {
  readonly name: string;
  readonly rack: string;
  readonly topUpLWeek: number | null;
  readonly isHeld: boolean;
}

interface Cover {
  readonly absence: Absence;
  readonly partners: readonly string[];
  readonly tubs: readonly CoverTub[];
  readonly leavesBy: LocalDay | null;
  readonly changeOn: LocalDay | null;
  readonly lastDispatch: LocalDay | null;
}

export const coverButton = (): Button => button('Cover card', press('cover', {}));

/** "All away Tue 3 Aug to Thu 12 Aug", for the posts and settings. */
export const coverLines = (voice: Voice, cover: Pick<Cover, 'absence'> | null): string[] =>
  cover === null ? [] : [`All away ${absenceWords(voice, cover.absence)}: the cover card is ready`];

/** Heat that the one who covers is to call about, °C; the band of readings ends at 27. */
const callAboveC = 28;

/** What to do before all are away, with the text for whoever looks after the tubs as a file to print or send on. */
export function coverCard(voice: Voice, cover: Cover): Card {
  const { absence, leavesBy, changeOn, lastDispatch, tubs } = cover;
  const before = [
    ...(leavesBy === null ? [] : [`leaves by ${dateWords(voice, leavesBy)}`]),
    ...(changeOn === null ? [] : [`a usual change ${dateWords(voice, changeOn)}`]),
  ];
  const text = coverText(voice, cover);
  return {
    title: `Cover, ${absenceWords(voice, absence)}`,
    why: [
      ...(before.length > 0 ? [`Before: ${before.join(', ')}, no extra food`] : []),
      lastDispatch === null ? 'No parcel leaves before' : `Last parcel ${dateWords(voice, lastDispatch)}`,
      ...text.slice(1, text.indexOf('')),
      `${tubs.length} tubs are listed in the file`,
    ],
    next: 'Write your phone numbers in, and print it or send it on',
    files: [{ name: `cover-${absence.from ?? 'now'}.txt`, text: `${text.join('\n')}\n` }],
    controls: [[button('The week', press('rota-week', {}))]],
  };
}

/** The text, a line each; what the card shows ends at the first empty line. */
function coverText(voice: Voice, { absence, partners, tubs }: Cover): string[] {
  return [
    `Shrimp tubs, ${absenceWords(voice, absence)}`,
    '1. Look every day, at least every second: bubbles in every tub',
    '2. Top up to the line with the marked can, slowly, no more',
    '3. Do not feed, and change no water: they have enough in the tub',
    '4. Move nothing between tubs, no net, no plant, no animal',
    `5. Call if bubbles stop, over ${tempWords(voice, callAboveC)}, three dead or more, a leak`,
    '',
    'Whom to call',
    ...partners.map((name) => `  ${name}: ____________________`),
    '  a neighbour with a key: ____________________',
    '',
    'Before hands go into the water: unplug, and rinse off soap and cream.',
    'No spray, paint or candle in the room. Water on the floor: power off at the fuse box first.',
    'A dead shrimp: take it out with a spoon and note the tub. An empty skin is no dead shrimp.',
    '',
    ...racksOf(tubs).flatMap(({ rack, own }) => [
      `Rack ${rack}`,
      ...own.map((tub) => `  [ ] ${tub.name}${tubWords(voice, tub)}`),
    ]),
  ];
}

function tubWords(voice: Voice, { topUpLWeek, isHeld }: CoverTub): string {
  const words = [
    ...(topUpLWeek === null ? [] : [`about ${litresWords(voice, Number(figure(topUpLWeek)))} a week`]),
    ...(isHeld ? ['in trouble or quarantine: look at it last'] : []),
  ];
  return words.length === 0 ? '' : `: ${words.join(', ')}`;
}

function racksOf(tubs: readonly CoverTub[]): { readonly rack: string; readonly own: readonly CoverTub[] }[] {
  return [...new Set(tubs.map(({ rack }) => rack))].map((rack) => ({
    rack,
    own: tubs.filter((tub) => tub.rack === rack),
  }));
}

/** The card of a partner whose days away leave nobody there: since when, the sales that need another day, the cover card. */
export function withCover(voice: Voice, card: Card, cover: Cover | null, toMove: readonly number[]): Card {
  if (cover === null && toMove.length === 0) return card;
  const named = toMove.map((id) => `sale ${id}`);
  return {
    ...card,
    why: [
      ...(card.why ?? []),
      ...coverLines(voice, cover),
      ...(cover?.lastDispatch == null ? [] : [`Last parcel before it: ${dateWords(voice, cover.lastDispatch)}`]),
      ...(toMove.length > 0 ? [`Not on a good day now: ${someWords(named, 4)}`] : []),
    ],
    ...(toMove.length > 0 && { next: 'Move the sales, then tell the buyers' }),
    controls: [
      [
        ...(toMove.length > 0 ? [button(`Move all ${toMove.length}`, press('sales-move-all', {}), 'main')] : []),
        ...(cover === null ? [] : [coverButton()]),
      ],
    ],
  };
}
