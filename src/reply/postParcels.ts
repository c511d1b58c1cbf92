import { oldAlarmDays, type Sale, type StandingValue, worstAir } from '../domain/index.ts';
import type { Button } from './card.ts';
import { airWords, type Judged, reasonLines } from './dispatchReasons.ts';
import { moveButton } from './sale.ts';
import { standingWords } from './standing.ts';
import { type TubWater, worstWords } from './tubWater.ts';
import { counted, dateWords, listWords, type Voice } from './voice.ts';
import { airButtons } from './weather.ts';

export interface ParcelWords {
  readonly sale: Sale;
  readonly judged: Judged;
}

/** "Parcels 41 and 43 may go"; the others by their reason, with the next good day. */
export function parcelLines(voice: Voice, parcels: readonly ParcelWords[]): string[] {
  const going = parcels.filter(({ judged }) => judged.verdict === 'may go');
  const others = new Map<string, string[]>();
  for (const { sale, judged } of parcels.filter((parcel) => parcel.judged.verdict !== 'may go')) {
    const why = `${judged.verdict}. ${[...reasonLines(voice, judged.reasons, 1), ...nextWords(voice, judged)].join('; ')}`;
    others.set(why, [...(others.get(why) ?? []), String(sale.id)]);
  }
  return [
    ...(going.length === 0 ? [] : [goingLine(voice, going)]),
    ...[...others].map(([why, ids]) => `${ids.length === 1 ? 'Parcel' : 'Parcels'} ${listWords(ids)}: ${why}`),
  ];
}

/** "Parcels 41 and 43 may go: low 6 °C, high 17 °C on the way, as of today 17:05", the worst of them all. */
function goingLine(voice: Voice, going: readonly ParcelWords[]): string {
  const ids = listWords(going.map(({ sale }) => String(sale.id)));
  const air = worstAir(going.flatMap(({ judged }) => judged.air ?? []));
  const words = air === null ? '' : `: ${lowered(airWords(voice, air))}`;
  return `${going.length === 1 ? 'Parcel' : 'Parcels'} ${ids} may go${words}`;
}

const lowered = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);

/** Behind the last line of parcels that a post has room for. */
export const moreParcels = (left: number): string => `${counted(left, 'other verdict')}: see Pack`;

const nextWords = (voice: Voice, { good, next }: Judged): string[] =>
  good ? [] : [next === null ? 'no good day within a year' : `next good day ${dateWords(voice, next)}`];

/** A button for each parcel that is better moved, at most `most`. */
export const moveButtons = (voice: Voice, parcels: readonly ParcelWords[], most = 5): Button[] =>
  parcels
    .flatMap(({ sale, judged }) =>
      judged.good || judged.next === null ? [] : [moveButton(voice, sale.id, judged.next, true)],
    )
    .slice(0, most);

/** What settles the air on the way of the first parcel that waits for that. */
export const forecastButtons = (parcels: readonly ParcelWords[]): Button[] =>
  parcels.map(({ sale, judged }) => airButtons(sale.id, judged)).find((buttons) => buttons.length > 0) ?? [];

/** "Sale 45" or "Sales 45 and 46" not paid yet. */
export const unpaidLines = (unpaid: readonly Sale[]): string[] =>
  unpaid.length === 0
    ? []
    : [`Not paid yet: ${unpaid.length === 1 ? 'sale' : 'sales'} ${listWords(unpaid.map(({ id }) => String(id)))}`];

export interface WatchWords extends TubWater {
  readonly tub: { readonly name: string };
}

/** Days since what is worst was read; null: nothing was. */
const ageOf = ({ standing, last }: WatchWords): number | null => standing[0]?.daysOld ?? last?.daysOld ?? null;

/** "Act: B5 ammonia 1 mg/L, A2 …", "Watch: …", with the age of old readings, and "Test again: …" where they are too old to believe. */
export function watchLines(voice: Voice, tubs: readonly WatchWords[], most = 4): string[] {
  const isOld = (tub: WatchWords): boolean => (ageOf(tub) ?? 0) > oldAlarmDays;
  const recent = tubs.filter((tub) => !isOld(tub));
  const lineOf = (word: string, own: readonly WatchWords[]): string[] => {
    if (own.length === 0) return [];
    const more = own.length > most ? `, and ${own.length - most} more` : '';
    return [
      `${word}: ${own
        .slice(0, most)
        .map((tub) => watchWords(voice, tub))
        .join(', ')}${more}`,
    ];
  };
  return [
    ...lineOf(
      'Act',
      recent.filter(({ waterState }) => waterState === 'act'),
    ),
    ...lineOf(
      'Watch',
      recent.filter(({ waterState }) => waterState === 'watch'),
    ),
    ...lineOf(
      'Test again',
      tubs.filter((tub) => isOld(tub) && tub.waterState !== 'fine'),
    ),
  ];
}

function watchWords(voice: Voice, watched: WatchWords): string {
  const days = ageOf(watched);
  const age = days !== null && days > 1 ? ` (${days} days ago)` : '';
  return `${watched.tub.name} ${worstWords(voice, watched, inPost) ?? 'fine'}${age}`;
}

/** A value that stands, its age left to be said. */
const inPost = (voice: Voice, value: StandingValue): string => standingWords(voice, { ...value, isOld: false });

export const claimLines = (claims: readonly Sale[]): string[] =>
  claims.length === 0 ? [] : [`Claims not answered: ${listWords(claims.map(({ id }) => `parcel ${id}`))}`];
