import { addDays, type Instant, type LocalDay } from '../day.ts';
import type { Tub } from '../tub.ts';
import type {
  Chore,
  ChoreAct,
  ChoreDone,
  ChoreHandOver,
  ChoreLater,
  ChoreTarget,
  ChoreTick,
  DueChore,
} from './chore.ts';
import { type ChoreFacts, type Need, needOf } from './ground.ts';
import { localDays } from './localDays.ts';
import { placeKey, placeOf, targetsOf } from './target.ts';

/** Logged acts that tick a chore, the last of each tub. */
export type LastActs = Readonly<Record<Exclude<ChoreAct, 'own'>, ReadonlyMap<number, ChoreTick>>>;

/** What due dates follow from. */
export interface DueQuestion {
  /** Those that are off are passed over. */
  readonly chores: readonly Chore[];
  /** Tubs in use, in rack order. */
  readonly tubs: readonly Tub[];
  readonly zone: string;
  readonly lastActs: LastActs;
  /** The last tick of each chore in each place. */
  readonly ticks: readonly ChoreDone[];
  readonly later: readonly ChoreLater[];
  readonly handedOver: readonly ChoreHandOver[];
  readonly facts: ChoreFacts;
  /** The day on which a tub's water change falls due by its plan. */
  readonly changeDueOn: (tub: Tub) => LocalDay;
}

/** When each chore falls due in each place, the earliest first. */
export function dueChores(question: DueQuestion): DueChore[] {
  const byPlace = {
    ticks: new Map(question.ticks.map((tick) => [placeKey(tick), tick])),
    later: new Map(question.later.map((later) => [placeKey(later), later])),
    handedOver: new Map(question.handedOver.map((over) => [placeKey(over), over])),
  };
  const dayIn = localDays(question.zone);
  const due = question.chores
    .filter(({ off }) => !off)
    .flatMap((chore) =>
      targetsOf(chore, question.tubs).flatMap((target) => dueIn(question, { ...byPlace, dayIn }, chore, target) ?? []),
    );
  return due.sort((a, b) => (a.dueOn < b.dueOn ? -1 : a.dueOn > b.dueOn ? 1 : a.chore.id - b.chore.id));
}

interface ByPlace {
  readonly dayIn: (at: Instant) => LocalDay;
  readonly ticks: ReadonlyMap<string, ChoreDone>;
  readonly later: ReadonlyMap<string, ChoreLater>;
  readonly handedOver: ReadonlyMap<string, ChoreHandOver>;
}

/** When a chore falls due at a target; null: there is no use for it. */
function dueIn(question: DueQuestion, byPlace: ByPlace, chore: Chore, target: ChoreTarget): DueChore | null {
  const key = placeKey(placeOf(chore, target));
  const tubs = tubsAt(target, question.tubs);
  const need = needOf(chore, tubs, question.facts);
  if (need === null) return null;
  const lastDone = latest([byPlace.ticks.get(key), ...actsOn(question.lastActs, chore.act, tubs)]);
  if (need.since !== null && lastDone !== null && lastDone.at >= need.since) return null;
  const holds = <T extends { readonly at: Instant }>(fact: T | undefined): T | null =>
    fact !== undefined && (lastDone === null || fact.at >= lastDone.at) ? fact : null;
  const later = holds(byPlace.later.get(key));
  const dueOn = dueBefore(question, { chore, target, need, dayIn: byPlace.dayIn }, tubs, lastDone);
  const until = earliest(need.stretch?.to, need.season?.to);
  if (until !== null && until < dueOn) return null;
  return {
    chore,
    target,
    dueOn: later !== null && later.until > dueOn ? later.until : dueOn,
    everyDays: need.everyDays,
    until,
    lastDone,
    later: later !== null && later.until > dueOn ? later.reason : null,
    handedTo: holds(byPlace.handedOver.get(key))?.userId ?? null,
  };
}

interface NeededChore {
  readonly chore: Chore;
  readonly target: ChoreTarget;
  readonly need: Need;
  readonly dayIn: (at: Instant) => LocalDay;
}

/** The due day before anybody put it off. */
function dueBefore(
  { changeDueOn }: DueQuestion,
  { chore, target, need, dayIn }: NeededChore,
  tubs: readonly Tub[],
  lastDone: ChoreTick | null,
): LocalDay {
  const [tub] = tubs;
  if (chore.act === 'change' && target.of === 'tub' && tub !== undefined) return changeDueOn(tub);
  const { everyDays, stretch, season } = need;
  if (everyDays === null && stretch !== null) return stretch.from;
  const every = everyDays ?? chore.everyDays;
  const doneOn = lastDone === null ? null : dayIn(lastDone.at);
  const next = doneOn === null ? null : addDays(doneOn, every);
  if (doneOn !== null && next !== null && doneOn >= (season?.from ?? doneOn)) return latestDay(next, stretch?.from);
  const added = [chore.addedAt, tubs.map(({ addedAt }) => addedAt).sort()[0] ?? chore.addedAt].sort().at(-1);
  const begins = latestDay(dayIn(added ?? chore.addedAt), season?.from);
  // What hangs on an event begins with it; anything else is spread over its first interval, and over that of each season.
  const first =
    stretch === null ? addDays(begins, firstOffset(chore, every, tub?.id ?? 0)) : latestDay(begins, stretch.from);
  return latestDay(first, next);
}

/** The latest of several days, the earliest; what is not given does not count. */
const latestDay = (day: LocalDay, other: LocalDay | null | undefined): LocalDay =>
  other != null && other > day ? other : day;
const earliest = (...days: readonly (LocalDay | undefined)[]): LocalDay | null =>
  days.flatMap((day) => day ?? []).sort()[0] ?? null;

/** Fractional part of the golden ratio: its multiples spread most evenly over a circle, however many there come to be. */
const golden = 0.6180339887498949;

/**
 * Days from the start until what was never done falls due: 0 for what comes every day, else 1 to the interval less one, spread by tub
 * and chore, so that neither a new rack nor a new set of chores falls due in one evening, and no date moves when the next tub is added.
 */
const firstOffset = ({ id }: Chore, everyDays: number, tubId: number): number =>
  everyDays === 1 ? 0 : 1 + Math.floor((everyDays - 1) * (((tubId + 7 * id) * golden) % 1));

const tubsAt = (target: ChoreTarget, tubs: readonly Tub[]): readonly Tub[] => {
  switch (target.of) {
    case 'tub':
      return tubs.filter(({ id }) => id === target.tubId);
    case 'rack':
      return tubs.filter(({ rack }) => rack === target.rack);
    case 'business':
      return tubs;
  }
};

const actsOn = (last: LastActs, act: ChoreAct, tubs: readonly Tub[]): (ChoreTick | undefined)[] =>
  act === 'own' ? [] : tubs.map(({ id }) => last[act].get(id));

/** The later of several ticks. */
function latest(ticks: readonly (ChoreTick | undefined)[]): ChoreTick | null {
  let found: ChoreTick | null = null;
  for (const tick of ticks) if (tick !== undefined && (found === null || tick.at > found.at)) found = tick;
  return found === null ? null : { at: found.at, by: found.by };
}

/** How long a chore is put off when nobody says: a seventh of its interval, at least a day and at most a week. Our choice. */
export const laterDays = (everyDays: number): number => Math.min(7, Math.max(1, Math.round(everyDays / 7)));
