import type { LocalDay } from '../../day.ts';
import { isAway, sharesOf } from '../shares.ts';
import type { Crew } from './crew.ts';

/** Chore minutes that somebody did on a day. */
export interface DoneWork {
  readonly on: LocalDay;
  readonly userId: string;
  readonly minutes: number;
  /** Null: of the business as a whole. */
  readonly rack: string | null;
}

/** Of the minutes of a plan that are a partner's by share, what is behind or ahead from before moves this part at most (our choice). */
const mostMadeUp = 1 / 3;

/**
 * Minutes that each partner has done over their share before the plan, negative: under it. A day's minutes are owed by those who were there,
 * from the first day on which they did anything; what others did is nobody's debt.
 */
export function aheadOf({ partners, placeOfUser }: Crew, done: readonly DoneWork[]): number[] {
  const ahead = partners.map(() => 0);
  const firstOn = new Map<number, LocalDay>();
  const byDay = new Map<LocalDay, Map<number, number>>();
  for (const { on, userId, minutes } of done) {
    const place = placeOfUser.get(userId);
    if (place === undefined) continue;
    const first = firstOn.get(place);
    if (first === undefined || on < first) firstOn.set(place, on);
    const day = byDay.get(on) ?? new Map<number, number>();
    day.set(place, (day.get(place) ?? 0) + minutes);
    byDay.set(on, day);
  }
  for (const [on, given] of byDay) {
    const here = partners.filter((partner, place) => {
      const first = firstOn.get(place);
      return given.has(place) || (first !== undefined && first <= on && !isAway(partner, on));
    });
    const shares = sharesOf(here);
    const total = [...given.values()].reduce((sum, minutes) => sum + minutes, 0);
    for (const [place, { userId }] of partners.entries()) {
      ahead[place] = (ahead[place] ?? 0) + (given.get(place) ?? 0) - total * (shares.get(userId) ?? 0);
    }
  }
  return ahead;
}

/** What each partner owes of a plan, in all and by day, minutes. */
export interface Owed {
  /** By partner, what is behind or ahead from before included. */
  readonly inAll: readonly number[];
  /** By partner and day, the share of the day's minutes. */
  readonly byDay: readonly (readonly number[])[];
  /** Whether a partner owes anything: who is away all the time, or has no share, is not measured. */
  readonly counts: readonly boolean[];
}

/** @param minutes  minutes of each day that somebody can do */
export function owedOf(crew: Crew, minutes: ArrayLike<number>, done: readonly DoneWork[]): Owed {
  const byDay = crew.partners.map((_, place) => crew.shares.map((of, at) => (of[place] ?? 0) * (minutes[at] ?? 0)));
  const parts = byDay.map((days) => days.reduce((sum, day) => sum + day, 0));
  const total = parts.reduce((sum, part) => sum + part, 0);
  const ahead = aheadOf(crew, done).map((one, place) => {
    const most = (parts[place] ?? 0) * mostMadeUp;
    return Math.max(-most, Math.min(most, one));
  });
  // What was cut off, or is with who is away, falls to all by what they owe, so that owed and planned minutes stay the same in all.
  const rest = total === 0 ? 0 : ahead.reduce((sum, one) => sum + one, 0) / total;
  return {
    inAll: parts.map((part, place) => part - (ahead[place] ?? 0) + rest * part),
    byDay,
    counts: parts.map((part) => part > 0),
  };
}
