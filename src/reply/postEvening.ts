import type { LocalDay, Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
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
import { partnerLine } from './rota.ts';
import { tickRows } from './rotaTicks.ts';
import { byPartner, doneWords, type RotaLine } from './rotaWords.ts';
import { counted, dateWords, listWords, someWords, type Voice } from './voice.ts';

interface EveningPost {
  readonly day: LocalDay;
  readonly items: readonly RotaLine[];
  readonly parcels: readonly ParcelWords[];
  readonly unpaid: readonly Sale[];
  readonly short: readonly { readonly what: string; readonly asked: number; readonly there: number }[];
  readonly notSent: readonly Sale[];
  readonly missed: MissedWords | null;
  readonly fromMorning: { readonly watch: readonly WatchWords[]; readonly claims: readonly Sale[] } | null;
}

const mostLines = 12;
const mostChores = 5;

/** Tomorrow's parcels judged again, and what is left of today. */
export function eveningCard(voice: Voice, post: EveningPost, lateMinutes = 0): Card {
  const open = post.items.filter(({ done }) => done === null);
  const blocks: PostBlock[] = [
    { lines: missedLines(voice, post.missed) },
    { lines: watchLines(voice, post.fromMorning?.watch ?? [], 3), least: 1 },
    { lines: parcelLines(voice, post.parcels).map((line) => `Tomorrow: ${line}`), least: 1, more: moreParcels },
    { lines: shortLines(post.short) },
    {
      lines: [
        ...unpaidLines(post.unpaid),
        ...notSentLines(voice, post.notSent),
        ...claimLines(post.fromMorning?.claims ?? []),
      ],
      joins: true,
    },
    { lines: byPartner(open).map(([name, own]) => `Left, ${partnerLine(name, own, mostChores)}`) },
    { lines: doneWords(post.items, mostChores), joins: true },
  ];
  const acts = [...moveButtons(voice, post.parcels, 4), ...forecastButtons(post.parcels)];
  const today = button('Today', press('rota-today', {}));
  return {
    title: postHeadline(postTitle(voice, 'Evening', post.day, lateMinutes), facts(post, open)),
    why: fittedLines(blocks, mostLines - 1),
    controls: tickRows('evening', post.day, open, acts.length > 0 || open.length > 0 ? acts : [today]),
  };
}

/** "Short for tomorrow: box 5 of 3 there": what is to be bought, caught or said no to tonight. */
const shortLines = (short: EveningPost['short']): string[] =>
  short.length === 0
    ? []
    : [
        `Short for tomorrow: ${someWords(
          short.map(({ what, asked, there }) => `${what} (${asked} needed, ${Math.max(0, there)} there)`),
          3,
        )}`,
      ];

/** What is left, by weight; of tomorrow's parcels, how many are in doubt. */
function facts({ parcels, notSent }: EveningPost, open: readonly RotaLine[]): string[] {
  const parts = [
    ...(parcels.length > 0 ? [parcelFact(parcels)] : []),
    ...(notSent.length > 0 ? [`${notSent.length} not sent`] : []),
    ...(open.length > 0 ? [`${counted(open.length, 'chore')} left`] : []),
  ];
  return parts.length > 0 ? parts : ['nothing left'];
}

/** "2 parcels tomorrow", "1 parcel in doubt", "1 of 3 parcels not to go": the worst verdict in words. */
function parcelFact(parcels: EveningPost['parcels']): string {
  const judgedAs = (verdict: string): number => parcels.filter(({ judged }) => judged.verdict === verdict).length;
  const all = counted(parcels.length, 'parcel');
  const of = (bad: number): string => (bad === parcels.length ? all : `${bad} of ${all}`);
  const [no, ask] = [judgedAs('no'), judgedAs('ask')];
  if (no > 0) return `${of(no)} not to go`;
  return ask > 0 ? `${of(ask)} in doubt` : `${all} tomorrow`;
}

/** "Not marked as sent: parcel 41, parcel 38 (Wed 17 Feb)": the day stands where it was an earlier one. */
const notSentLines = (voice: Voice, sales: readonly Sale[]): string[] =>
  sales.length === 0
    ? []
    : [
        `Not marked as sent: ${listWords(
          sales.map(({ id, dispatchOn }) =>
            dispatchOn === null || dispatchOn >= voice.today
              ? `parcel ${id}`
              : `parcel ${id} (${dateWords(voice, dispatchOn)})`,
          ),
        )}`,
      ];

/** The one partner whose chores are left, where they are all of one; nobody where parcels concern both. */
export function eveningConcerns({ items, parcels, notSent }: EveningPost): string[] {
  const left = new Set(items.filter(({ done }) => done === null).map(({ userId }) => userId));
  const [only] = left;
  return parcels.length === 0 && notSent.length === 0 && left.size === 1 && only ? [only] : [];
}
