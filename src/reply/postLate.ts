import type { LocalDay } from '../domain/index.ts';
import { counted, dateWords, listWords, type Voice } from './voice.ts';

/** A post that is a few minutes late is on time. */
const punctualMinutes = 5;

/** "Morning, Tue 13 Apr", "Morning, Tue 13 Apr (40 minutes late)". */
export function postTitle(
  voice: Voice,
  kind: 'Morning' | 'Evening' | 'Week' | 'Season',
  day: LocalDay,
  lateMinutes: number,
): string {
  const late = lateMinutes < punctualMinutes ? '' : ` (${lateWords(lateMinutes)} late)`;
  return `${kind}, ${dateWords(voice, day)}${late}`;
}

/** "40 minutes", "3 hours". */
const lateWords = (minutes: number): string =>
  minutes < 90 ? counted(minutes, 'minute') : counted(Math.round(minutes / 60), 'hour');

export interface MissedWords {
  readonly morning: number;
  readonly evening: number;
  readonly weekly: number;
  readonly since: LocalDay;
}

/** What was not posted while the bot was off: a line, or none. */
export function missedLines(voice: Voice, missed: MissedWords | null): string[] {
  if (missed === null) return [];
  const kinds = (['morning', 'evening', 'weekly'] as const).flatMap((kind) =>
    missed[kind] === 0 ? [] : [`${missed[kind]} ${kind}`],
  );
  const posts = missed.morning + missed.evening + missed.weekly === 1 ? 'post' : 'posts';
  return [
    `The bot was off: ${listWords(kinds)} ${posts} folded into this one, the first of ${dateWords(voice, missed.since)}`,
  ];
}
