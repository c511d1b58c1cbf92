import type { Partner } from '../../business.ts';
import { addDays, type LocalDay } from '../../day.ts';
import type { DueChore } from '../chore.ts';
import type { Misfit } from '../level/chain.ts';
import { isAway, neverDoes, sharesOf } from '../shares.ts';

/** A day without anybody who may do a chore is worse than any number of days without the partner whose chore it is. */
const nobodyThere = 1000;

/** Who is there on the days of a plan, and who does what. Partners go by their place in the list, days by their distance from the first. */
export function openCrew(partners: readonly Partner[], from: LocalDay, days: number) {
  const there = Array.from({ length: days }, (_, at) => {
    const on = addDays(from, at);
    return partners.flatMap((partner, place) => (isAway(partner, on) ? [] : [place]));
  });
  /** Part of the day's minutes that each partner owes, 0 for who is away. */
  const shares = there.map((here) => {
    const among = sharesOf(here.flatMap((place) => partners[place] ?? []));
    return partners.map(({ userId }, place) => (here.includes(place) ? (among.get(userId) ?? 0) : 0));
  });
  const ofAll = sharesOf(partners);
  const partOf = (place: number): number => ofAll.get(partners[place]?.userId ?? '') ?? 0;
  const whole = there.map((here) => here.reduce((sum, place) => sum + partOf(place), 0));
  /** The part of all partners' shares that is there, over 0 to 1. A day on which nobody with a share is there counts as any other. */
  const capacity = whole.map((part) => (part > 0 ? part : 1));

  const never = new Map<number, readonly boolean[]>();
  const neverOf = ({ id, name }: DueChore['chore']): readonly boolean[] => {
    const known = never.get(id) ?? partners.map((partner) => neverDoes(partner, name));
    never.set(id, known);
    return known;
  };
  const placeOfUser = new Map(partners.map(({ userId }, place) => [userId, place]));
  const thereIf = (userId: string | null, at: number): number | undefined => {
    const place = userId === null ? undefined : placeOfUser.get(userId);
    return place !== undefined && there[at]?.includes(place) ? place : undefined;
  };

  /**
   * Who may do a chore on a day: the one to whom it was handed, the one whose chore it is, else all who do such chores; who has no share only
   * where nobody else is there.
   */
  const able = (due: DueChore, at: number, again: boolean): readonly number[] => {
    const own = (again ? undefined : thereIf(due.handedTo, at)) ?? thereIf(due.chore.userId, at);
    if (own !== undefined) return [own];
    const not = neverOf(due.chore);
    const willing = (there[at] ?? []).filter((place) => not[place] !== true);
    const sharing = willing.filter((place) => partners[place]?.sharePercent !== 0);
    return sharing.length > 0 ? sharing : willing;
  };

  const misfit: Misfit = (due, at) => {
    if (able(due, at, true).length === 0) return nobodyThere;
    const { userId } = due.chore;
    return userId !== null && placeOfUser.has(userId) && thereIf(userId, at) === undefined ? 1 : 0;
  };

  return { partners, days, there, shares, capacity, placeOfUser, able, misfit };
}

export type Crew = ReturnType<typeof openCrew>;
