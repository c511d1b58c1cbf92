import type { Weekday } from '../domain/index.ts';

const names = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;

/** A weekday in English, full or shortened ("tue", "tues", "tuesday"), as a source for larger patterns. */
export const weekdayPattern = '(?:mon|tue|tues|wed|weds|wednes|thu|thur|thurs|fri|sat|satur|sun)(?:day)?';

/** The weekday that a word matched by `weekdayPattern` names. */
export function weekdayNamed(word: string): Weekday | undefined {
  const found = names.findIndex((name) => name.startsWith(word.slice(0, 3)));
  return found === -1 || !new RegExp(`^${weekdayPattern}$`).test(word) ? undefined : ((found + 1) as Weekday);
}

/** `text` with every weekday written in full. */
export const withFullWeekdays = (text: string): string =>
  text.replace(new RegExp(`\\b${weekdayPattern}\\b`, 'g'), (word) => {
    const weekday = weekdayNamed(word);
    return weekday === undefined ? word : (names[weekday - 1] ?? word);
  });
