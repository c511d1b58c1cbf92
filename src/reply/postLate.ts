import type { LocalDay } from '../domain/index.ts';
import { counted, dateWords, listWords, type Voice } from './voice.ts';

/** What a notification shows of a first line. */
const titleLength = 48;

/** The first line of a post: its kind and day, and of the facts, those that weigh most first, as many as a notification shows. */
export function postHeadline(title: string, [first = '', ...others]: readonly string[]): string {
  let line = `${title}: ${first}`;
  for (const fact of others) {
    if (line.length + 2 + fact.length > titleLength) break;
    line += `, ${fact}`;
  }
  return line;
}

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
  const kinds = (['morning', 'evening', 'weekly'] as const).filter((kind) => missed[kind] > 0);
  const number = missed.morning + missed.evening + missed.weekly;
  const first = dateWords(voice, missed.since);
  if (number === 1) return [`The bot was off: the ${kinds[0]} post of ${first} is folded into this one`];
  const each = listWords(kinds.map((kind) => `${missed[kind]} ${kind}`));
  return [`The bot was off: ${each} posts folded into this one, the first of ${first}`];
}
