import { ok, type Result, type Weekday } from '../domain/index.ts';
import { type BadWords, badWords, tidied } from './badWords.ts';
import { weekdayNamed } from './weekdayNames.ts';

const phrases: Readonly<Record<string, readonly Weekday[]>> = {
  daily: [1, 2, 3, 4, 5, 6, 7],
  'every day': [1, 2, 3, 4, 5, 6, 7],
  weekdays: [1, 2, 3, 4, 5],
  weekend: [6, 7],
  weekends: [6, 7],
};

/** The weekdays meant by "Mon-Wed", "mon, tue, wed", "Fri-Mon" or "1,2,3" (Monday is 1), ascending and each once. */
export function parseWeekdays(text: string): Result<Weekday[], BadWords> {
  const words = tidied(text);
  const phrase = Object.hasOwn(phrases, words) ? phrases[words] : undefined;
  if (phrase !== undefined) return ok([...phrase]);
  const pieces = words
    .replace(/ ?(?:-|–|—|\bto\b) ?/g, '-')
    .split(/[\s,;/+&]+|\band\b/)
    .filter((piece) => piece !== '');
  const found = new Set<Weekday>();
  for (const piece of pieces) {
    const [from, to, ...more] = piece.split('-').map(readWeekday);
    if (from === undefined || more.length > 0 || (to === undefined && piece.includes('-'))) {
      return badWords('weekdays', text);
    }
    for (const weekday of fromTo(from, to ?? from)) found.add(weekday);
  }
  return found.size === 0 ? badWords('weekdays', text) : ok([...found].sort((a, b) => a - b));
}

const readWeekday = (piece: string): Weekday | undefined =>
  /^[1-7]$/.test(piece) ? (Number(piece) as Weekday) : weekdayNamed(piece);

const fromTo = (from: Weekday, to: Weekday): Weekday[] =>
  Array.from({ length: ((to - from + 7) % 7) + 1 }, (_, step) => (((from - 1 + step) % 7) + 1) as Weekday);
