import {
  type Business,
  type Contradiction,
  contradiction,
  dayMs,
  estimateFrom,
  type Instant,
  inferNitrate,
  later,
  type NitrateEstimate,
  plusMs,
  type Reading,
  type RisePrior,
  type Tub,
  type TubEvent,
  widePrior,
  windowDays,
  withAskedLooks,
  withRisePrior,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { shareOf } from './shares.ts';
import { waterVersion } from './version.ts';

/** A tub's own past, and what was inferred from it alone at its last event. */
export interface Inferred {
  readonly version: string;
  readonly events: readonly TubEvent[];
  readonly lastDay: number;
  readonly lastReadDay: number;
  readonly alone: NitrateEstimate;
  /** What was concluded from it with a prior, until that changes or the hour is over. */
  readonly concluded: { estimate?: Concluded<NitrateEstimate>; odd?: Concluded<Contradiction | null> };
}

interface Concluded<T> {
  readonly key: string;
  readonly value: T;
}

/** Inferring takes milliseconds a tub, so what was inferred is kept until the tub's facts or the settings change. */
const kept = new WeakMap<Desk['store'], Map<number, Inferred>>();

/** Facts that can still matter: two windows, as the reading that is judged may be as old as one. */
const pastDays = 2 * windowDays;

/** Days since the beginning of the count, fractions too. */
export const dayNumber = (at: Instant): number => Date.parse(at) / dayMs;

/**
 * What a tub's own past says of its nitrate.
 * @param sourceMgL of the water that goes in
 */
export function inferredOf(desk: Desk, business: Business, sourceMgL: number, tub: Tub): Inferred {
  const mine = kept.get(desk.store) ?? new Map<number, Inferred>();
  kept.set(desk.store, mine);
  const { sourceNitrateMgL: tapMgL, kitStepsMgL } = business;
  const version = waterVersion(desk, tub, [sourceMgL, tapMgL, ...kitStepsMgL]);
  const before = mine.get(tub.id);
  if (before?.version === version) return before;
  const now = desk.now();
  const logged = eventsOf(desk, tub, tapMgL, plusMs(now, -pastDays * dayMs));
  const events = withAskedLooks(logged, sourceMgL, kitStepsMgL);
  const lastDay = Math.max(...events.map(({ day }) => day), Number.NEGATIVE_INFINITY);
  const from = Number.isFinite(lastDay) ? lastDay : dayNumber(now);
  const fresh: Inferred = {
    version,
    events,
    lastDay: from,
    lastReadDay: events.findLast(({ of }) => of === 'reading')?.day ?? Number.NEGATIVE_INFINITY,
    alone: inferNitrate(events, from, sourceMgL, kitStepsMgL, widePrior),
    concluded: {},
  };
  mine.set(tub.id, fresh);
  return fresh;
}

const priorText = ({ medianPerDay, logSd }: RisePrior): string => `${medianPerDay} ${logSd}`;

/** The estimate of a tub at a moment, with what its neighbours say of its rise; the same throughout an hour. */
export function estimateAt(own: Inferred, prior: RisePrior, now: Instant): NitrateEstimate {
  const key = `${priorText(prior)} ${Math.floor(dayNumber(now) * 24)}`;
  const before = own.concluded.estimate;
  if (before?.key === key) return before.value;
  const today = dayNumber(now);
  const readings = today - own.lastReadDay > windowDays ? 0 : own.alone.readings;
  const beliefs = withRisePrior(own.alone.beliefs, widePrior, prior);
  const value = estimateFrom(later(beliefs, Math.max(0, today - own.lastDay)), readings);
  own.concluded.estimate = { key, value };
  return value;
}

/** A newest reading that was foretold with more than this, by a blunt look, is not odd: there is no need to look closely. */
const plainChance = 0.15;

/** The newest reading, where it does not follow from those before it. */
export function newestOdd(
  own: Inferred,
  prior: RisePrior,
  sourceMgL: number,
  kitStepsMgL: readonly number[],
): Contradiction | null {
  if (own.alone.newestChance > plainChance) return null;
  const key = priorText(prior);
  const before = own.concluded.odd;
  if (before?.key === key) return before.value;
  const value = contradiction(own.events, sourceMgL, kitStepsMgL, prior);
  own.concluded.odd = { key, value };
  return value;
}

/** A tub's nitrate readings, changes and top-ups since an instant, in order of time. */
function eventsOf(desk: Desk, tub: Tub, tapMgL: number, since: Instant): TubEvent[] {
  const { water } = desk.store;
  const share = shareOf(desk, tub);
  return [
    ...water.readings(tub.id, since).flatMap(readingEvent),
    ...water
      .changes(tub.id, since)
      .map((change): TubEvent => ({ of: 'change', day: dayNumber(change.at), fraction: share(change) })),
    ...water.topUps(tub.id, since).map(
      (topUp): TubEvent => ({
        of: 'topup',
        day: dayNumber(topUp.at),
        fraction: share(topUp),
        mgL: topUp.water === 'soft' ? 0 : tapMgL,
      }),
    ),
  ].sort((one, other) => one.day - other.day);
}

const readingEvent = ({ at, nitrateMgL }: Reading): TubEvent[] =>
  nitrateMgL === null ? [] : [{ of: 'reading', day: dayNumber(at), nitrateMgL }];
