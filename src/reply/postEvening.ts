import type { LocalDay, Sale } from '../domain/index.ts';
import { press } from './acts.ts';
import { button, type Card } from './card.ts';
import { type MissedWords, missedLines, mostFacts, postTitle } from './postLate.ts';
import {
  claimLines,
  forecastButtons,
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
import { counted, dateWords, listWords, type Voice } from './voice.ts';

interface EveningPost {
  readonly day: LocalDay;
  readonly items: readonly RotaLine[];
  readonly parcels: readonly ParcelWords[];
  readonly unpaid: readonly Sale[];
  readonly notSent: readonly Sale[];
  readonly missed: MissedWords | null;
  readonly fromMorning: { readonly watch: readonly WatchWords[]; readonly claims: readonly Sale[] } | null;
}

const mostLines = 12;
const mostChores = 5;

/** Tomorrow's parcels judged again, and what is left of today. */
export function eveningCard(voice: Voice, post: EveningPost, lateMinutes = 0): Card {
  const open = post.items.filter(({ done }) => done === null);
  const lines = [
    ...missedLines(voice, post.missed),
    ...watchLines(voice, post.fromMorning?.watch ?? [], 3),
    ...parcelLines(voice, post.parcels).map((line) => `Tomorrow: ${line}`),
    ...unpaidLines(post.unpaid),
    ...notSentLines(voice, post.notSent),
    ...claimLines(post.fromMorning?.claims ?? []),
    ...byPartner(open).map(([name, own]) => `Left, ${partnerLine(name, own, mostChores)}`),
    ...doneWords(post.items, mostChores),
  ];
  const acts = [...moveButtons(voice, post.parcels, 4), ...forecastButtons(post.parcels)];
  const today = button('Today', press('rota-today', {}));
  return {
    title: `${postTitle(voice, 'Evening', post.day, lateMinutes)}: ${headline(post, open)}`,
    why: lines.slice(0, mostLines - 1),
    controls: tickRows('evening', post.day, open, acts.length > 0 || open.length > 0 ? acts : [today]),
  };
}

/** What weighs most of what is left, so that it fits a notification. */
function headline({ parcels, notSent }: EveningPost, open: readonly RotaLine[]): string {
  const bad = parcels.filter(({ judged }) => judged.verdict !== 'may go').length;
  const parts = [
    ...(parcels.length > 0 ? [`${counted(parcels.length, 'parcel')} tomorrow`] : []),
    ...(bad > 0 ? [`${bad} in doubt`] : []),
    ...(notSent.length > 0 ? [`${notSent.length} not sent`] : []),
    ...(open.length > 0 ? [`${counted(open.length, 'chore')} left`] : []),
  ];
  return parts.length > 0 ? parts.slice(0, mostFacts).join(', ') : 'nothing left';
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
