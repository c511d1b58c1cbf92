import { ok, parseWallTime, type Result, type WallTime } from '../domain/index.ts';
import { type BadWords, badWords, tidied } from './badWords.ts';

/** A part of the day: when it begins, and the time that stands for it in a log. */
export interface DayPart {
  readonly begins: WallTime;
  readonly stands: WallTime;
}

const part = (begins: string, stands: string): DayPart => ({ begins: begins as WallTime, stands: stands as WallTime });

const parts: Readonly<Record<string, DayPart>> = {
  morning: part('05:00', '08:00'),
  afternoon: part('12:00', '15:00'),
  evening: part('17:00', '19:00'),
  night: part('20:00', '22:00'),
};

/** A text split into the time of day that it names, if any, and the rest, which names the day. */
export interface TimeAndRest {
  readonly time: WallTime | null;
  /** Set where the time only stands for a part of the day. */
  readonly part: DayPart | null;
  readonly rest: string;
}

const clock = '(\\d{1,2})(?:(?:[:h]|(\\.))(\\d{2})(?::\\d{2})?)? ?(am|pm|h)?';
const named =
  '(?:in the |the )?(noon|midday|midnight|this morning|this afternoon|this evening|tonight|last night|morning|afternoon|evening|night)';
const atStart = new RegExp(`^(?:at |about |around )?(?:${clock}|${named})(?=$|[ ,])`);
const atEnd = new RegExp(`(?:^|[ ,])(?:at |about |around )?(?:${clock}|${named})$`);

/** Takes the time of day from the start or the end of tidied text. */
export function takeTime(text: string): TimeAndRest {
  for (const pattern of [atEnd, atStart]) {
    const found = pattern.exec(text);
    if (found === null) continue;
    const rest = `${text.slice(0, found.index)} ${text.slice(found.index + found[0].length)}`.trim();
    const word = found[5];
    const taken = word === undefined ? readClock(found) : readNamed(word);
    if (taken !== undefined) return { ...taken, rest: `${rest} ${taken.rest}`.trim() };
  }
  return { time: null, part: null, rest: text };
}

function readClock(found: RegExpExecArray): TimeAndRest | undefined {
  const [, hours = '', dot, minutes, half] = found;
  if (minutes === undefined && half === undefined) return undefined;
  // "1.12" may be a time or the first of December; with minutes over twelve it can only be a time.
  if (dot !== undefined && half === undefined && Number(minutes) <= 12) return undefined;
  const typed = Number(hours);
  // "2 h" alone is likelier a length of time; "18h" is a time of day.
  if (half === 'h' && hours.length < 2) return undefined;
  const twelve = half === 'am' || half === 'pm';
  if (twelve && (typed < 1 || typed > 12)) return undefined;
  const hour = twelve ? (typed % 12) + (half === 'pm' ? 12 : 0) : typed;
  const time = parseWallTime(`${hour}:${minutes ?? '00'}`);
  return time === undefined ? undefined : { time, part: null, rest: '' };
}

function readNamed(word: string): TimeAndRest {
  if (word === 'noon' || word === 'midday') return { time: '12:00' as WallTime, part: null, rest: '' };
  if (word === 'midnight') return { time: '00:00' as WallTime, part: null, rest: '' };
  const which = word === 'tonight' ? 'night' : word.replace(/^(?:this|last) /, '');
  const of = parts[which] ?? null;
  const rest = word === 'last night' ? 'yesterday' : word === 'tonight' || word.startsWith('this ') ? 'today' : '';
  return { time: of?.stands ?? null, part: of, rest };
}

/** The time of day that is meant by "7:30", "07.30", "7am", "18h" or "noon". */
export function parseTimeWords(text: string): Result<WallTime, BadWords> {
  const words = tidied(text);
  const plain = parseWallTime(words);
  if (plain !== undefined) return ok(plain);
  const { time, part: of, rest } = takeTime(words);
  return time === null || of !== null || rest !== '' ? badWords('time', text) : ok(time);
}
