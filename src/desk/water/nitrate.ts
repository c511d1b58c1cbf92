import {
  type Business,
  type Change,
  type Contradiction,
  contradiction,
  dayMs,
  eventsUpTo,
  type Instant,
  type NitrateEstimate,
  plusMs,
  type RisePrior,
  risePriorOf,
  roundedPrior,
  type Tub,
  waterIn,
  windowDays,
} from '../../domain/index.ts';
import type { Desk } from '../desk.ts';
import { tubsInUse } from '../find.ts';
import { dayNumber, estimateAt, type Inferred, inferredOf, newestOdd } from './inferred.ts';

/** What the readings of all tubs say of their nitrate; made once for an answer and handed on. */
export interface RackNitrate {
  /** As of now; `readings` 0: none of the last 120 days. */
  readonly estimateOf: (tub: Tub) => NitrateEstimate;
  /** The reading at an instant, where it does not follow from those before it. */
  readonly oddOf: (tub: Tub, at: Instant) => Contradiction | null;
  /** Whether the newest reading does not follow. */
  readonly isOdd: (tub: Tub) => boolean;
  /** Whether the reading at an instant was asked for by one that did not fit. */
  readonly wasAsked: (tub: Tub, at: Instant) => boolean;
}

export function rackNitrate(desk: Desk, business: Business, inUse: readonly Tub[] = tubsInUse(desk)): RackNitrate {
  const { kitStepsMgL } = business;
  const sourceMgL = waterIn(business).values.nitrateMgL;
  const inferred = new Map(inUse.map((tub) => [tub.id, inferredOf(desk, business, sourceMgL, tub)]));
  const ownOf = (tub: Tub): Inferred => inferred.get(tub.id) ?? inferredOf(desk, business, sourceMgL, tub);
  const priors = new Map<number, RisePrior>();
  const priorFor = ({ id: mine }: Tub): RisePrior => {
    const known = priors.get(mine);
    if (known !== undefined) return known;
    const others = [...inferred].flatMap(([id, { alone }]) =>
      id === mine || alone.readings === 0 ? [] : [alone.risePerDay],
    );
    const prior = roundedPrior(risePriorOf(others));
    priors.set(mine, prior);
    return prior;
  };
  return {
    estimateOf: (tub) => estimateAt(ownOf(tub), priorFor(tub), desk.now()),
    isOdd: (tub) => newestOdd(ownOf(tub), priorFor(tub), sourceMgL, kitStepsMgL) !== null,
    wasAsked: (tub, at) =>
      ownOf(tub).events.some(
        (event) => event.of === 'reading' && event.day === dayNumber(at) && event.isAsked === true,
      ),
    oddOf: (tub, at) => {
      const judged = eventsUpTo(ownOf(tub).events, dayNumber(at));
      return contradiction(judged, sourceMgL, kitStepsMgL, priorFor(tub));
    },
  };
}

/** The change of a tub that an explanation speaks of by its day. */
export const changeAtDay = (desk: Desk, tub: Tub, day: number): Change | undefined =>
  desk.store.water
    .changes(tub.id, plusMs(desk.now(), -2 * windowDays * dayMs))
    .find(({ at }) => Math.abs(dayNumber(at) - day) < 1e-9);
