import type { Instant, LocalDay } from '../day.ts';
import type { Logged } from '../tub.ts';

export const choreScopes = ['tub', 'rack', 'business'] as const;
export type ChoreScope = (typeof choreScopes)[number];

/**
 * change: ticking it logs the planned water change · reading: a logged reading of nitrate ticks it · test: one of ammonia and nitrite does ·
 * topup: a logged top-up does · own: a tick and no more.
 */
export const choreActs = ['change', 'reading', 'test', 'topup', 'own'] as const;
export type ChoreAct = (typeof choreActs)[number];

/** Whether a chore is done by logging what a kit shows. */
export const isMeasured = ({ act }: Pick<Chore, 'act'>): boolean => act === 'reading' || act === 'test';

/** The half of the year in which a chore is done; warm: May to October, south of the equator November to April. */
export const choreSeasons = ['all', 'cool', 'warm'] as const;
export type ChoreSeason = (typeof choreSeasons)[number];

/**
 * What a chore hangs on. interval: on nothing but its interval · warmth: the interval is that of warm water, longer in cooler · young: only
 * where young are · hatch: once when counted eggs are due to hatch · hold: once on the last day of a hold · claim: while a parcel's arrival
 * may still be reported · trouble: in the days after a tub's trouble, a test once, anything else each day.
 */
export const choreGrounds = ['interval', 'warmth', 'young', 'hatch', 'hold', 'claim', 'trouble'] as const;
export type ChoreGround = (typeof choreGrounds)[number];

/** Work that comes again. */
export interface Chore {
  readonly id: number;
  readonly name: string;
  readonly act: ChoreAct;
  readonly everyDays: number;
  readonly minutes: number;
  readonly scope: ChoreScope;
  readonly season: ChoreSeason;
  readonly dependsOn: ChoreGround;
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
  /** Days from one doing to the next as things stand; null: it does not come again by itself. */
  readonly everyDays: number | null;
  /** The last day on which it is of use; null: no end. */
  readonly until: LocalDay | null;
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
