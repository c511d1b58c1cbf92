import { type ChangePlan, isAlarm, isHarmful, type StandingValue } from '../domain/index.ts';
import { figureOf } from './findings.ts';
import { counted, listWords, litresWords, sinceWords, type Voice } from './voice.ts';

const called = ({ finding: { of } }: StandingValue): string =>
  of === 'ph' ? 'pH' : of === 'gh' || of === 'kh' || of === 'tds' ? of.toUpperCase() : of;

/** Whether what harmed was followed by a change and not tested since. */
export const wantsTest = (value: StandingValue): boolean => isHarmful(value) && value.isChanged;

/** "ammonia 2 mg/L", "nitrite 1 mg/L 20 days ago", "changed, test ammonia again": behind the state in a title. */
export function standingWords(voice: Voice, value: StandingValue): string {
  if (wantsTest(value)) return `changed, test ${called(value)} again`;
  const shown = figureOf(voice, value.finding);
  return value.isOld ? `${shown} ${counted(value.daysOld, 'day')} ago` : shown;
}

/** The same in a narrow row: "ammonia 20 days old", "test ammonia again". */
export function standingShort(voice: Voice, value: StandingValue): string {
  if (wantsTest(value)) return `test ${called(value)} again`;
  return value.isOld ? `${called(value)} ${counted(value.daysOld, 'day')} old` : figureOf(voice, value.finding);
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** "Ammonia 2 mg/L, read yesterday 18:50; changed since": where and how a value of an earlier reading still stands. */
export const standingLine = (voice: Voice, value: StandingValue): string =>
  `${capital(figureOf(voice, value.finding))}, read ${sinceWords(voice, value.at)}; ${
    wantsTest(value) ? 'changed since, not tested again' : 'not read since'
  }`;

/** "Test ammonia and nitrite again tomorrow"; null where nothing waits for a test. */
export function testAgain(standing: readonly StandingValue[], when = ''): string | null {
  const waiting = standing.filter(wantsTest);
  return waiting.length === 0 ? null : `Test ${listWords(waiting.map(called))} again${when}`;
}

/** What to do where ammonia or nitrite harms. An alarm of long ago asks for a test before water is changed for it. */
export function firstAid(voice: Voice, plan: ChangePlan, standing: readonly StandingValue[]): string {
  const alarm = standing.find(isAlarm);
  const change = `change ${litresWords(voice, plan.litres)}`;
  return alarm?.isOld === true
    ? `Test ${called(alarm)} now; if it is still there, ${change} at once`
    : `${capital(change)} now, stop feeding, air up, test again tomorrow`;
}
