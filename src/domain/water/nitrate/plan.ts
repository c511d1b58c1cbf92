import type { Business } from '../../business.ts';
import { bucketSizes } from './bucket.ts';
import type { Estimate } from './estimate.ts';
import type { Belief, NitrateEstimate } from './infer.ts';
import {
  chanceUnder,
  changedBy,
  type DaysToLimit,
  daysToLimit,
  later,
  nitrateOf,
  plateauMgL,
  risesOf,
} from './outlook.ts';

/** The bounds and aims of a change: per cent of the net volume, days, mg/L as NO3. */
export type NitratePolicy = Pick<
  Business,
  'sourceNitrateMgL' | 'nitrateLimitMgL' | 'changeMinPercent' | 'changeMaxPercent' | 'changeIntervalDays'
>;

/**
 * Why a change is as large as it is: the policy's least; so that the limit holds until the next change; so that it holds for good; the
 * policy's most, which may not do; the first of several; no reading yet; source water or rise that no allowed change holds.
 */
export type NitratePlanReason =
  | 'least'
  | 'limit'
  | 'plateau'
  | 'capped'
  | 'steps'
  | 'no-reading'
  | 'source-too-high'
  | 'rise-too-high';

/** What would bring a tub under the limit that changes do not hold; null: not by this alone. */
export interface Remedy {
  /** Source water with at most this, mg/L. */
  readonly sourceAtMostMgL: number | null;
  /** A rise of at most this: less food, fewer animals, more plants; mg/L a day. */
  readonly riseAtMostPerDay: number | null;
  /** Changes of the policy's most every so many days. */
  readonly everyDays: number | null;
}

/** What a change does, and what the same change does when it is made again and again. */
export interface ChangeEffect {
  /** Nitrate after the change, mg/L. */
  readonly afterMgL: Estimate;
  /** Chance that the tub stays under the limit from this change to the next. */
  readonly chanceUnder: number;
  /** Changes of this size until the tub probably is under the limit, this one included; null: not within thirty. */
  readonly changes: number | null;
  /** What such changes hold in the end, just before each, at the likely rise, mg/L. */
  readonly heldMgL: number;
}

export interface NitratePlan extends ChangeEffect {
  readonly reason: NitratePlanReason;
  /** One change, L; half litres, inside the policy's bounds. */
  readonly litres: number;
  /** The same as a share of the net volume. */
  readonly fraction: number;
  /** Days from now; 0: today. */
  readonly dueInDays: number;
  /** Days between such changes. */
  readonly everyDays: number;
  readonly daysToLimit: DaysToLimit;
  /** Lowest plateau that the policy allows, at the likely rise, mg/L: the floor when the limit cannot be held. */
  readonly floorMgL: number;
  /** Only when the limit cannot be held. */
  readonly remedy: Remedy | null;
}

/** How sure the limit rule wants to be, and at which quantile of the rise the plateau is held. */
const sure = 0.95;
const plateauQuantile = 0.9;
/** The limit counts as out of reach when even this quantile of the rise is too fast for it. */
const hopelessQuantile = 0.25;
/** Least days between the changes of a series: mineral and temperature jumps need time to be got over (common practice, no source). */
export const stepGapDays = 3;
/** A series longer than this is not foretold. */
const mostSteps = 30;

/**
 * The next change of a tub.
 *
 * Limit rule: the least change for which nitrate stays under the limit until the next one, with a chance of 95 % over the beliefs.
 * Plateau rule: the least for which N_source + g·T/f stays under the limit at the 90 % quantile of g, where an allowed change can.
 * The larger counts, between the policy's bounds.
 *
 * A tub over the limit that the largest change on the interval's day would not bring under it gets a series, `stepGapDays` apart; else nothing is due twice in an interval.
 *
 * @param estimate        of this tub, at this moment
 * @param netLitres       water in the tub, L, above 0
 * @param daysSinceChange days since the last change; null: none logged, due today
 */
export function planNitrate(
  { beliefs, readings }: Pick<NitrateEstimate, 'beliefs' | 'readings'>,
  policy: NitratePolicy,
  netLitres: number,
  daysSinceChange: number | null,
): NitratePlan {
  const { sourceNitrateMgL: sourceMgL, nitrateLimitMgL: limitMgL, changeIntervalDays: intervalDays } = policy;
  const sizes = bucketSizes((netLitres * policy.changeMinPercent) / 100, (netLitres * policy.changeMaxPercent) / 100);
  const aims = { sourceMgL, limitMgL, intervalDays, netLitres, sizes };
  const mostFraction = (sizes.at(-1) ?? 0) / netLitres;
  const outOfReach = readings === 0 ? null : outOfReachBy(beliefs, mostFraction, aims);
  const daysToInterval = Math.max(0, intervalDays - (daysSinceChange ?? intervalDays));
  const isSeries = readings > 0 && outOfReach === null && needsSeries(beliefs, mostFraction, aims, daysToInterval);
  const everyDays = isSeries ? Math.min(stepGapDays, intervalDays) : intervalDays;
  const dueInDays = daysSinceChange === null ? 0 : Math.max(0, everyDays - daysSinceChange);
  const due = later(beliefs, dueInDays);
  const { reason, litres } =
    readings === 0 ? { reason: 'no-reading' as const, litres: sizes[0] ?? 0 } : sizeOf(due, outOfReach, isSeries, aims);
  const fraction = litres / netLitres;
  const [likelyRise = 0] = risesOf(beliefs, [0.5]);
  return {
    reason,
    litres,
    fraction,
    dueInDays,
    everyDays,
    ...effectOf(beliefs, policy, fraction, dueInDays, everyDays),
    daysToLimit: daysToLimit(beliefs, limitMgL),
    floorMgL: plateauMgL(sourceMgL, likelyRise, intervalDays, mostFraction),
    remedy: outOfReach === null ? null : remedyOf(likelyRise, mostFraction, policy),
  };
}

/** What a change of `fraction`, made in `dueInDays` and every so many days after, does to nitrate. */
export function effectOf(
  beliefs: readonly Belief[],
  { sourceNitrateMgL: sourceMgL, nitrateLimitMgL: limitMgL }: NitratePolicy,
  fraction: number,
  dueInDays: number,
  everyDays: number,
): ChangeEffect {
  const after = changedBy(later(beliefs, dueInDays), fraction, sourceMgL);
  const [likelyRise = 0] = risesOf(beliefs, [0.5]);
  return {
    afterMgL: nitrateOf(after),
    chanceUnder: chanceUnder(after, limitMgL, everyDays),
    changes: changesUntilUnder(after, fraction, everyDays, sourceMgL, limitMgL),
    heldMgL: plateauMgL(sourceMgL, likelyRise, everyDays, fraction),
  };
}

interface Aims {
  readonly sourceMgL: number;
  readonly limitMgL: number;
  readonly intervalDays: number;
  readonly netLitres: number;
  /** Litres that one change may be, ascending. */
  readonly sizes: readonly number[];
}

/** What puts the limit out of reach of the largest change allowed; null: it is within reach, or may well be. */
function outOfReachBy(
  beliefs: readonly Belief[],
  mostFraction: number,
  { sourceMgL, limitMgL, intervalDays }: Aims,
): 'source-too-high' | 'rise-too-high' | null {
  if (sourceMgL >= limitMgL) return 'source-too-high';
  const [slowRise = 0] = risesOf(beliefs, [hopelessQuantile]);
  return plateauMgL(sourceMgL, slowRise, intervalDays, mostFraction) > limitMgL ? 'rise-too-high' : null;
}

/** Whether the tub is over the limit, and would be still after the largest change on the interval's day: then it does not wait for that. */
function needsSeries(
  beliefs: readonly Belief[],
  mostFraction: number,
  { sourceMgL, limitMgL }: Aims,
  daysToInterval: number,
): boolean {
  if (chanceUnder(beliefs, limitMgL, 0) >= 0.5) return false;
  return chanceUnder(later(beliefs, daysToInterval), limitMgL, 0, mostFraction, sourceMgL) < 0.5;
}

/** Litres by the rules, and which rule decided. */
function sizeOf(
  due: readonly Belief[],
  outOfReach: 'source-too-high' | 'rise-too-high' | null,
  isSeries: boolean,
  { sourceMgL, limitMgL, intervalDays, netLitres, sizes }: Aims,
): { reason: NitratePlanReason; litres: number } {
  const [least = 0, most = 0] = [sizes[0], sizes.at(-1)];
  // A tub cleaner than its source water gains nothing by a large change.
  if (outOfReach !== null) return { reason: outOfReach, litres: nitrateOf(due).median > sourceMgL ? most : least };
  const holds = (litres: number): boolean =>
    chanceUnder(due, limitMgL, intervalDays, litres / netLitres, sourceMgL) >= sure;
  const forLimit = sizes.find(holds);
  if (isSeries) return { reason: 'steps', litres: forLimit ?? most };
  if (forLimit === undefined) return { reason: 'capped', litres: most };
  const [fastRise = 0] = risesOf(due, [plateauQuantile]);
  const forPlateau = sizes.find(
    (litres) => plateauMgL(sourceMgL, fastRise, intervalDays, litres / netLitres) <= limitMgL,
  );
  if (forPlateau !== undefined && forPlateau > forLimit) return { reason: 'plateau', litres: forPlateau };
  return { reason: forLimit > least ? 'limit' : 'least', litres: forLimit };
}

/** Changes of `fraction` until the tub probably is under the limit, the first one made already; null: not within `mostSteps`. */
function changesUntilUnder(
  afterFirst: readonly Belief[],
  fraction: number,
  gapDays: number,
  sourceMgL: number,
  limitMgL: number,
): number | null {
  let beliefs = afterFirst;
  for (let made = 1; made <= mostSteps; made++) {
    if (chanceUnder(beliefs, limitMgL, 0) >= 0.5) return made;
    beliefs = changedBy(later(beliefs, gapDays), fraction, sourceMgL);
  }
  return null;
}

/** What the plateau's formula asks of each of its parts alone. */
function remedyOf(risePerDay: number, fraction: number, policy: NitratePolicy): Remedy {
  const { sourceNitrateMgL: sourceMgL, nitrateLimitMgL: limitMgL, changeIntervalDays: intervalDays } = policy;
  const room = limitMgL - sourceMgL;
  const sourceAtMostMgL = 2 * limitMgL - plateauMgL(limitMgL, risePerDay, intervalDays, fraction);
  const everyDays = risePerDay > 0 ? Math.floor((fraction * room) / risePerDay) : 0;
  return {
    sourceAtMostMgL: sourceAtMostMgL >= 0 ? sourceAtMostMgL : null,
    riseAtMostPerDay: room > 0 ? (fraction * room) / intervalDays : null,
    everyDays: everyDays >= stepGapDays && everyDays < intervalDays ? everyDays : null,
  };
}
