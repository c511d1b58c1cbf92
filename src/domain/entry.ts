import type { Instant } from './day.ts';

/** Who acts: the chat user's id and the name that the others know. */
export interface Person {
  readonly userId: string;
  readonly name: string;
}

/** Who acts, and the key under which the act is written once however often it is delivered. */
export interface By extends Person {
  readonly key: string;
}

/** The heading of every fact: who, when, what in words, and whether it was voided since. */
export interface Entry {
  readonly id: number;
  readonly kind: EntryKind;
  /** What was logged, in words that a person recognises ("A4 changed 7.5 L"). */
  readonly summary: string;
  readonly who: Person;
  readonly loggedAt: Instant;
  readonly voided: { readonly at: Instant; readonly by: string } | null;
}

export const entryKinds = [
  'business',
  'partner',
  'line',
  'tub',
  'reading',
  'change',
  'topup',
  'count',
  'move',
  'loss',
  'hold',
  'trouble',
  'goods',
  'outlet',
  'sale',
  'payment',
  'parcel',
  'check',
  'arrival',
  'claim',
  'settlement',
  'waiting',
  'weather',
  'cost',
  'forget',
  'season',
  'chore',
  'chore-done',
  'chore-later',
  'hand-over',
] as const;

export type EntryKind = (typeof entryKinds)[number];
