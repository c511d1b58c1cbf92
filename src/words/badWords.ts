import { fail, type Refusal } from '../domain/index.ts';
import { missingDate } from './missingDate.ts';

/** The refusal of words that do not say what was asked for. */
export type BadWords = Extract<Refusal, { kind: 'bad-words' }>;

const examples: Record<BadWords['what'], string> = {
  when: 'yesterday 18:00',
  day: 'next Tue',
  'month-day': '1 Dec',
  month: '2026-10, or October',
  items: '20 orange, 10 green',
  time: '07:30',
  weekdays: 'Mon-Wed',
  region: 'GB-ENG',
  'time zone': 'Europe/London',
  currency: 'EUR',
  'kit steps': '0 5 10 20 40 80',
};

/** Refuses `typed` with an example of what is understood. */
export const badWords = (what: BadWords['what'], typed: string): { readonly ok: false; readonly fault: BadWords } =>
  fail({ kind: 'bad-words', what, typed: typed.trim(), example: examples[what] });

/** The refusal of words for a day: what they lack, or that no calendar has it. */
export type BadDate = BadWords | Extract<Refusal, { kind: 'no-such-date' }>;

/** Refuses `typed` where a day was asked for; a date that no calendar has is told from words that say nothing. */
export const badDate = (what: BadWords['what'], typed: string): { readonly ok: false; readonly fault: BadDate } => {
  const date = missingDate(tidied(typed));
  return date === undefined ? badWords(what, typed) : fail({ kind: 'no-such-date', typed: date });
};

/** Typed text made ready for reading: lower case, single spaces, no closing full stop or comma. */
export const tidied = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/[.,;!]+$/, '');
