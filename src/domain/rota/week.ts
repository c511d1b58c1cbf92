import type { Partner } from '../business.ts';
import { addDays, daysBetween, type LocalDay } from '../day.ts';
import type { DueChore } from './chore.ts';
import { type Chain, chainOf } from './level/chain.ts';
import { type Levelled, level, type ToldPlan } from './level/level.ts';
import { type Crew, openCrew } from './split/crew.ts';
import { type DoneWork, owedOf } from './split/owed.ts';
import { inRackOrder, type Piece } from './split/piece.ts';
import { split } from './split/split.ts';
import { placeKey, placeOf, rackOfTarget } from './target.ts';

/** A chore on the day on which it is to be done, and the partner who is to do it. */
export interface RotaTask {
  readonly due: DueChore;
  readonly on: LocalDay;
  /** Null: nobody is there who does it. */
  readonly userId: string | null;
}

/** A task of a plan that was told, by the key of its chore and place. */
export interface ToldTask {
  readonly key: string;
  readonly on: LocalDay;
  readonly userId: string | null;
}

export interface WeekQuestion {
  readonly due: readonly DueChore[];
  /** First day planned. */
  readonly from: LocalDay;
  /** Days planned, 1 or more. */
  readonly days: number;
  readonly partners: readonly Partner[];
  /** What was done before `from`, as far back as it counts. */
  readonly done: readonly DoneWork[];
  /** The plan that was told last; empty: none was. */
  readonly told: readonly ToldTask[];
}

/** A plan, how good it is, and how much better any plan could be at most, minutes; a gap of 0: none is better. */
export interface RotaPlan {
  readonly tasks: readonly RotaTask[];
  /** Minutes of the heaviest day, of all partners together. */
  readonly peakMinutes: number;
  /** The largest distance over the plan between the minutes that a partner is given and owes. */
  readonly unfairMinutes: number;
  readonly gap: { readonly peakMinutes: number; readonly unfairMinutes: number };
}

/**
 * Who does what on which day. Kept without exception: no chore is later than it is due (what is late is for today) or further from the one
 * before than its interval, and nobody is given what they never do, or anything while away. Then, in this order: as few chores as can be on
 * days without anybody who may do them (`chainOf`); the heaviest day as light as can be, the days even (`level`); for these days, nobody far
 * from their share of the minutes, what was done before included (`split`); and the plan that was told as it was, racks with who does them.
 * The same question has the same answer, and a plan told as it is stays as it is.
 */
export function planWeek({ due, from, days, partners, done, told }: WeekQuestion): RotaPlan {
  const crew = openCrew(partners, from, days);
  const chains = due.flatMap((one) => chainOf(one, from, days, crew.misfit) ?? []);
  const before = toldBefore(told, from, crew);
  const levelled = level(chains, crew.capacity, before);
  const pieces = inRackOrder(piecesOf(chains, levelled, crew, before));
  const givable = pieces.filter(({ able }) => able.length > 0);
  const minutes = new Float64Array(days);
  for (const piece of givable) minutes[piece.at] = (minutes[piece.at] ?? 0) + piece.minutes;
  const { owner, unfairMinutes, atLeastMinutes } = split(givable, crew, owedOf(crew, minutes, done), done);
  const places = new Map(givable.map((piece, index) => [piece, owner[index]]));
  return {
    tasks: pieces.map((piece) => ({
      due: piece.due,
      on: addDays(from, piece.at),
      userId: partners[places.get(piece) ?? -1]?.userId ?? null,
    })),
    peakMinutes: levelled.peakMinutes,
    unfairMinutes,
    gap: {
      peakMinutes: Math.max(0, levelled.peakMinutes - levelled.atLeastMinutes),
      unfairMinutes: Math.max(0, unfairMinutes - atLeastMinutes),
    },
  };
}

const keyOf = ({ chore, target }: DueChore): string => placeKey(placeOf(chore, target));

function piecesOf(chains: readonly Chain[], { paths }: Levelled, crew: Crew, before: ToldBefore | null): Piece[] {
  return chains.flatMap(({ due, minutes }, index) =>
    (paths[index] ?? []).map((at, nth) => {
      const able = crew.able(due, at, nth > 0);
      const told = before?.ownerOf(keyOf(due), at) ?? null;
      return {
        due,
        at,
        minutes,
        rack: rackOfTarget(due.target),
        able,
        told: told !== null && able.includes(told) ? told : null,
      };
    }),
  );
}

/** The plan that was told, with who was told. */
interface ToldBefore extends ToldPlan {
  /** Place of who was told to do it, on that day or else on the nearest one. */
  ownerOf(key: string, at: number): number | null;
}

/** Null where nothing is left of it. */
function toldBefore(told: readonly ToldTask[], from: LocalDay, { placeOfUser }: Crew): ToldBefore | null {
  const byKey = new Map<string, Map<number, number | null>>();
  for (const { key, on, userId } of told) {
    const days = byKey.get(key) ?? new Map<number, number | null>();
    days.set(daysBetween(from, on), userId === null ? null : (placeOfUser.get(userId) ?? null));
    byKey.set(key, days);
  }
  const days = new Map([...byKey].map(([key, owners]) => [key, new Set(owners.keys())]));
  const all = [...days.values()].flatMap((of) => [...of]);
  const last = Math.max(-1, ...all);
  if (last < 0) return null;
  return {
    first: Math.min(...all),
    last,
    daysOf: ({ due }) => days.get(keyOf(due)) ?? null,
    ownerOf: (key, at) => {
      const owners = [...(byKey.get(key) ?? [])];
      owners.sort(([a], [b]) => Math.abs(a - at) - Math.abs(b - at) || a - b);
      return owners[0]?.[1] ?? null;
    },
  };
}
