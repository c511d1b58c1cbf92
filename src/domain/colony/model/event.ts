import type { Instant, LocalDay } from '../../day.ts';
import type { CountMethod, Stage } from '../../tub.ts';

/** When a fact of a tub happened, and which entry logged it. */
interface Dated {
  readonly at: Instant;
  /** Calendar day of `at` in the business's zone. */
  readonly day: LocalDay;
  readonly entryId: number;
}

/** A count as it was logged, animals. Null: not counted. */
export interface CountSeen extends Dated {
  readonly of: 'count';
  readonly method: CountMethod;
  readonly saleable: number;
  readonly juveniles: number | null;
  readonly berried: number | null;
  /** What each removal pass caught; null unless counted by passes. */
  readonly passes: readonly number[] | null;
}

/** Saleable animals that left for a buyer, extras included, or were found dead. */
export interface Taken extends Dated {
  readonly of: 'sent' | 'loss';
  readonly number: number;
}

/** Animals that came from another tub or went there. */
export interface Moved extends Dated {
  readonly of: 'moveIn' | 'moveOut';
  readonly number: number;
  readonly stage: Stage;
}

/** A fact that bears on how many animals a tub holds. */
export type ColonyEvent = CountSeen | Taken | Moved;

/** Facts as they happened; of the same moment, the one logged later came later. */
export const inOrder = (events: readonly ColonyEvent[]): ColonyEvent[] =>
  events.toSorted((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : a.entryId - b.entryId));
