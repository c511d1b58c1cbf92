import {
  type Business,
  type Change,
  type Contradiction,
  contradiction,
  dayMs,
  estimateFrom,
  eventsUpTo,
  type Instant,
  inferNitrate,
  later,
  type NitrateEstimate,
  plusMs,
  type Reading,
  type RisePrior,
  risePriorOf,
  type Tub,
  type TubEvent,
  widePrior,
  windowDays,
  withRisePrior,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { waterIn } from './waterIn.ts';

/** What the readings of all tubs say of their nitrate; made once for an answer and handed on. */
export interface RackNitrate {
  /** As of now; `readings` 0: none of the last 120 days. */
  readonly estimateOf: (tub: Tub) => NitrateEstimate;
  /** The reading at an instant, where it does not follow from those before it; the newest where no instant is given. */
  readonly oddOf: (tub: Tub, at?: Instant) => Contradiction | null;
}

const dayNumber = (at: Instant): number => Date.parse(at) / dayMs;

/** A tub's own past, and what was inferred from it alone at its last event. */
interface Inferred {
  readonly key: string;
  readonly events: readonly TubEvent[];
  readonly lastDay: number;
  readonly lastReadDay: number;
  readonly alone: NitrateEstimate;
}

/** Inferring takes milliseconds a tub, so what was inferred is kept until the tub's facts or the settings change. */
const kept = new WeakMap<Desk['store'], Map<number, Inferred>>();

/** Facts that can still matter: two windows, as the reading that is judged may be as old as one. */
const pastDays = 2 * windowDays;

export function rackNitrate(desk: Desk, business: Business, inUse: readonly Tub[] = tubsInUse(desk)): RackNitrate {
  const mine = kept.get(desk.store) ?? new Map<number, Inferred>();
  kept.set(desk.store, mine);
  const now = desk.now();
  const { nitrateMgL: sourceMgL } = waterIn(business).values;
  const inferred = new Map(inUse.map((tub) => [tub.id, inferredOf(desk, business, tub, sourceMgL, now, mine)]));
  const ownOf = (tub: Tub): Inferred => inferred.get(tub.id) ?? inferredOf(desk, business, tub, sourceMgL, now, mine);

  const priorFor = (tub: Tub): RisePrior =>
    risePriorOf(
      [...inferred].flatMap(([id, { alone }]) => (id === tub.id || alone.readings === 0 ? [] : [alone.risePerDay])),
    );
  return {
    estimateOf: (tub) => {
      const own = ownOf(tub);
      const today = dayNumber(now);
      const readings = today - own.lastReadDay > windowDays ? 0 : own.alone.readings;
      const beliefs = withRisePrior(own.alone.beliefs, widePrior, priorFor(tub));
      return estimateFrom(later(beliefs, Math.max(0, today - own.lastDay)), readings);
    },
    oddOf: (tub, at) => {
      const { events } = ownOf(tub);
      const judged = at === undefined ? events : eventsUpTo(events, dayNumber(at));
      return contradiction(judged, sourceMgL, business.kitStepsMgL, priorFor(tub));
    },
  };
}

function inferredOf(
  desk: Desk,
  business: Business,
  tub: Tub,
  sourceMgL: number,
  now: Instant,
  mine: Map<number, Inferred>,
): Inferred {
  const { sourceNitrateMgL: tapMgL, kitStepsMgL } = business;
  const key = JSON.stringify([desk.store.freshness('water', tub.id), tub.netLitres, sourceMgL, tapMgL, kitStepsMgL]);
  const before = mine.get(tub.id);
  if (before?.key === key) return before;
  const events = eventsOf(desk, tub, tapMgL, plusMs(now, -pastDays * dayMs));
  const lastDay = Math.max(...events.map(({ day }) => day), Number.NEGATIVE_INFINITY);
  const from = Number.isFinite(lastDay) ? lastDay : dayNumber(now);
  const fresh: Inferred = {
    key,
    events,
    lastDay: from,
    lastReadDay: events.findLast(({ of }) => of === 'reading')?.day ?? Number.NEGATIVE_INFINITY,
    alone: inferNitrate(events, from, sourceMgL, kitStepsMgL, widePrior),
  };
  mine.set(tub.id, fresh);
  return fresh;
}

/** A tub's nitrate readings, changes and top-ups since an instant, in order of time. */
function eventsOf({ store: { water } }: Desk, tub: Tub, tapMgL: number, since: Instant): TubEvent[] {
  const share = (litres: number): number => Math.min(1, litres / tub.netLitres);
  return [
    ...water.readings(tub.id, since).flatMap(readingEvent),
    ...water
      .changes(tub.id, since)
      .map(({ at, litres }): TubEvent => ({ of: 'change', day: dayNumber(at), fraction: share(litres) })),
    ...water.topUps(tub.id, since).map(
      ({ at, litres, water: kind }): TubEvent => ({
        of: 'topup',
        day: dayNumber(at),
        fraction: share(litres),
        mgL: kind === 'soft' ? 0 : tapMgL,
      }),
    ),
  ].sort((one, other) => one.day - other.day);
}

const readingEvent = ({ at, nitrateMgL }: Reading): TubEvent[] =>
  nitrateMgL === null ? [] : [{ of: 'reading', day: dayNumber(at), nitrateMgL }];

/** The change of a tub that an explanation speaks of by its day. */
export const changeAtDay = (desk: Desk, tub: Tub, day: number): Change | undefined =>
  desk.store.water
    .changes(tub.id, plusMs(desk.now(), -pastDays * dayMs))
    .find(({ at }) => Math.abs(dayNumber(at) - day) < 1e-9);
