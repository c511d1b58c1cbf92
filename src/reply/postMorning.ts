import type { LocalDay, Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { coverButton, coverLines } from './cover.ts';
import { type MissedWords, missedLines, postHeadline, postTitle } from './postLate.ts';
import { fittedLines, type PostBlock } from './postLines.ts';
import {
  claimLines,
  forecastButtons,
  moreParcels,
  moveButtons,
  type ParcelWords,
  parcelLines,
  unpaidLines,
  type WatchWords,
  watchLines,
} from './postParcels.ts';
import { type WaterToPrepare, waterShort } from './prepare.ts';
import { partnerLine } from './rota.ts';
import { tickRows } from './rotaTicks.ts';
import { byPartner, doneWords, type RotaLine } from './rotaWords.ts';
import { roundButton } from './round.ts';
import { troubledLines } from './trouble.ts';
import { ageWords, counted, type Voice } from './voice.ts';

interface MorningPost {
  readonly day: LocalDay;
  readonly items: readonly RotaLine[];
  readonly parcels: readonly ParcelWords[];
  readonly sent: readonly Sale[];
  readonly unpaid: readonly Sale[];
  readonly water: readonly WaterToPrepare[];
  readonly watch: readonly WatchWords[];
  readonly troubled: Parameters<typeof troubledLines>[0];
  readonly claims: readonly Sale[];
  readonly unheard: readonly Sale[];
  readonly missed: MissedWords | null;
  readonly backupFailed: string | null;
  readonly cover: Parameters<typeof coverLines>[1];
}

/** Lines above the controls, the title among them. */
const mostLines = 12;

/** Chores named in a partner's line; all of them are in the list below. */
const mostChores = 5;

/** The day's work by partner, the parcels with their verdicts, what to watch; it is made anew as things get done. */
export function morningCard(voice: Voice, post: MorningPost, lateMinutes = 0): Card {
  const open = post.items.filter(({ done }) => done === null);
  const blocks: PostBlock[] = [
    { lines: missedLines(voice, post.missed) },
    { lines: troubledLines(post.troubled) },
    { lines: watchLines(voice, post.watch, 3), least: 1 },
    { lines: parcelLines(voice, post.parcels), least: 1, more: moreParcels },
    { lines: byPartner(open).map(([name, own]) => partnerLine(name, own, mostChores)) },
    { lines: waterShort(voice, post.water), least: 1 },
    { lines: coverLines(voice, post.cover) },
    {
      lines: [
        ...unpaidLines(post.unpaid),
        ...claimLines(post.claims),
        ...unheardLines(voice, post.unheard),
        ...(post.backupFailed === null ? [] : [`Last night's backup failed: ${post.backupFailed}`]),
      ],
      joins: true,
    },
    { lines: doneWords(post.items, mostChores), joins: true },
  ];
  const beside = [
    ...(open.length > 0 ? [roundButton()] : []),
    ...moveButtons(voice, post.parcels, 2),
    ...forecastButtons(post.parcels),
    ...(post.parcels.length > 0 ? [button('Pack', press('pack', {}))] : []),
    ...(post.cover === null ? [] : [coverButton()]),
    ...post.unheard.slice(0, 1).map(({ id }) => button(`Parcel ${id} arrived`, press('arrived-form', { sale: id }))),
  ];
  const week = button('The week', press('rota-week', {}));
  return {
    title: postHeadline(postTitle(voice, 'Morning', post.day, lateMinutes), facts(post, open)),
    why: fittedLines(blocks, mostLines - 1),
    controls: tickRows('morning', post.day, open, open.length === 0 ? [...beside, week] : beside),
  };
}

/** "6 changes", "2 parcels", "9 others": what is open, by weight. */
function facts({ parcels, items }: MorningPost, open: readonly RotaLine[]): string[] {
  const changes = open.filter(({ due }) => due.chore.act === 'change').length;
  const others = open.length - changes;
  const parts = [
    ...(changes > 0 ? [counted(changes, 'change')] : []),
    ...(parcels.length > 0 ? [counted(parcels.length, 'parcel')] : []),
    ...(others > 0 ? [counted(others, changes > 0 ? 'other' : 'chore')] : []),
  ];
  if (parts.length > 0) return parts;
  return [items.length > 0 ? 'all done' : 'nothing to do'];
}

/** Claims are settled from the day of delivery: a parcel that nobody speaks of is asked after. */
function unheardLines(voice: Voice, unheard: readonly Sale[]): string[] {
  const [first] = unheard;
  if (first === undefined || first.sentAt === null) return [];
  const others =
    unheard.length > 1
      ? ` and ${unheard
          .slice(1, 4)
          .map(({ id }) => id)
          .join(', ')}`
      : '';
  return [`No word yet: parcel ${first.id}, sent ${ageWords(voice, first.sentAt)}${others}`];
}

/** What a post of an earlier day turns into once it is pressed. */
export const overCard = (voice: Voice, kind: 'Morning' | 'Evening', day: LocalDay): Card => ({
  title: `${postTitle(voice, kind, day, 0)}: that day is over`,
  why: ["What is left of it stands on today's rota"],
  controls: [[button('Today', press('rota-today', {}), 'main')]],
});
