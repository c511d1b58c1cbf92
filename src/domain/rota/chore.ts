import type { Instant, LocalDay } from '../day.ts';

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
  readonly lastDone: { readonly at: Instant; readonly by: string } | null;
}
