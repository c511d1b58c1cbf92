import type { Instant, LocalDay } from '../day.ts';
import type { Logged } from '../tub.ts';

export const choreScopes = ['tub', 'rack', 'business'] as const;
export type ChoreScope = (typeof choreScopes)[number];

/** change: ticking it logs the planned water change; reading: a logged reading ticks it; topup: a logged top-up ticks it; own: a tick and no more. */
export const choreActs = ['change', 'reading', 'topup', 'own'] as const;
export type ChoreAct = (typeof choreActs)[number];

/** Work that comes again. */
export interface Chore {
  readonly id: number;
  readonly name: string;
  readonly act: ChoreAct;
  readonly everyDays: number;
  readonly minutes: number;
  readonly scope: ChoreScope;
  /** The partner who always does it; null: shared. */
  readonly userId: string | null;
  readonly off: boolean;
  readonly addedAt: Instant;
}

/** What one instance of a chore is about: a tub, a rack, or the business as a whole. */
export type ChoreTarget =
  | { readonly of: 'tub'; readonly tubId: number; readonly name: string; readonly rack: string }
  | { readonly of: 'rack'; readonly rack: string }
  | { readonly of: 'business' };

/** A chore on a target with the day it falls due. */
export interface DueChore {
  readonly chore: Chore;
  readonly target: ChoreTarget;
  readonly dueOn: LocalDay;
  readonly lastDone: ChoreTick | null;
  /** Why it was put off, while it is. */
  readonly later: string | null;
  /** The partner to whom it was handed over until it is done. */
  readonly handedTo: string | null;
}

/** When a chore was done, and by whom. */
export interface ChoreTick {
  readonly at: Instant;
  readonly by: string;
}

/** A chore and the place in which it is done, as stored: a tub, a rack, or neither for the business. */
export interface ChorePlace {
  readonly choreId: number;
  readonly tubId: number | null;
  readonly rack: string | null;
}

export interface ChoreDone extends Logged, ChorePlace {}

/** Put off: not due before `until`. */
export interface ChoreLater extends Logged, ChorePlace {
  readonly until: LocalDay;
  readonly reason: string;
}

/** Handed over to a partner, until it is done the next time. */
export interface ChoreHandOver extends Logged, ChorePlace {
  readonly userId: string;
}
