import { addDays, daysBetween, type LocalDay } from '../day.ts';
import { type Jump, jumpOf, type MovedWater } from './jump.ts';
import { bucketSizes } from './nitrate/bucket.ts';
import type { NitrateEstimate } from './nitrate/infer.ts';
import {
  type ChangeEffect,
  effectOf,
  type NitratePlan,
  type NitratePlanReason,
  type NitratePolicy,
  planNitrate,
  stepGapDays,
} from './nitrate/plan.ts';

/** Why a change is as large as it is: harm of today, or what nitrate asks for. */
export type ChangeReason = 'urgent' | NitratePlanReason;

/** Nitrate of a tub by its readings, and what the planned change does to it. */
export interface NitrateOutlook
  extends Pick<NitrateEstimate, 'nowMgL' | 'risePerDay' | 'readings'>,
    ChangeEffect,
    Pick<NitratePlan, 'daysToLimit' | 'floorMgL' | 'remedy'> {
  readonly limitMgL: number;
  /** Of the water that goes in. */
  readonly sourceMgL: number;
}

/** Over the limit by less than this share nobody can tell it from the limit (common practice, no source). */
const tellable = 1.15;

/** Whether nitrate as it stands by its estimate is over the limit by more than a kit's blur. */
export const isOverLimit = ({ nowMgL, limitMgL }: Pick<NitrateOutlook, 'nowMgL' | 'limitMgL'>): boolean =>
  nowMgL.median > tellable * limitMgL;

/** The change a tub needs next. */
export interface ChangePlan {
  readonly dueOn: LocalDay;
  readonly litres: number;
  readonly percent: number;
  readonly reason: ChangeReason;
  /** Days from one such change to the next. */
  readonly everyDays: number;
  /** Null: no reading of the last 120 days. */
  readonly nitrate: NitrateOutlook | null;
  /** The day of the last nitrate reading, however old; null: never read. */
  readonly nitrateReadOn: LocalDay | null;
  /** How far the change moves temperature, TDS and GH. */
  readonly jump: Jump;
  /** Where the jump asks for parts: what the change would be in one, L. */
  readonly wholeLitres: number | null;
}

/** What a tub's next change follows from. */
export interface ChangeQuestion {
  /** Water in the tub, L, above 0. */
  readonly netLitres: number;
  readonly policy: NitratePolicy;
  /** As of now. */
  readonly estimate: NitrateEstimate;
  readonly today: LocalDay;
  /** Null: no change logged. */
  readonly lastChangedOn: LocalDay | null;
  /** The day a tub never changed falls due. */
  readonly firstDueOn: LocalDay;
  /** The day of the last nitrate reading; null: none. */
  readonly readOn: LocalDay | null;
  /** The day ammonia or nitrite was read that harms, and no change made since; null: none. */
  readonly harmOn: LocalDay | null;
  /** The tub's minerals and temperature now; null: not known. */
  readonly water: MovedWater;
  /** What goes in. */
  readonly source: MovedWater;
}

/** More than this at once is no first aid, per cent: it adds a shock to the harm (common practice, no source). */
const mostFirstAidPercent = 25;

/**
 * The next change of a tub: litres by the nitrate model (`planNitrate`), in parts where it would move minerals too far, at once and the
 * most where ammonia or nitrite harms. A tub over the limit whose changes were never logged does not wait for its first day.
 */
export function planChange(ask: ChangeQuestion): ChangePlan {
  const { netLitres, policy, estimate, today, lastChangedOn, firstDueOn, harmOn } = ask;
  const { changeIntervalDays: intervalDays } = policy;
  const isOver = estimate.readings > 0 && estimate.nowMgL.median > policy.nitrateLimitMgL;
  const firstOn = isOver && ask.readOn !== null && ask.readOn < firstDueOn ? ask.readOn : firstDueOn;
  const lastOn = lastChangedOn ?? addDays(firstOn, -intervalDays);
  const model = planNitrate(estimate, policy, netLitres, Math.max(0, daysBetween(lastOn, today)));
  const harm = { reason: 'urgent', litres: firstAidLitres(netLitres, policy), everyDays: intervalDays } as const;
  const { reason, litres: whole, everyDays: wholeEvery } = harmOn === null ? model : harm;
  const jumpWhole = jumpOf(whole / netLitres, ask.water, ask.source, stepGapDays);
  const isSplit = harmOn === null && jumpWhole.parts > 1;
  const litres = isSplit ? partOf(whole, jumpWhole.parts) : whole;
  const everyDays = isSplit ? Math.max(stepGapDays, Math.floor(wholeEvery / jumpWhole.parts)) : wholeEvery;
  const dueOn = harmOn ?? (lastChangedOn === null ? firstOn : addDays(lastChangedOn, Math.min(everyDays, wholeEvery)));
  const fraction = litres / netLitres;
  const dueInDays = Math.max(0, daysBetween(today, dueOn));
  return {
    dueOn,
    litres,
    percent: Math.round(fraction * 100),
    reason,
    everyDays,
    nitrate:
      estimate.readings === 0
        ? null
        : {
            nowMgL: estimate.nowMgL,
            risePerDay: estimate.risePerDay,
            readings: estimate.readings,
            ...effectOf(estimate.beliefs, policy, fraction, dueInDays, everyDays),
            daysToLimit: model.daysToLimit,
            floorMgL: model.floorMgL,
            remedy: model.remedy,
            limitMgL: policy.nitrateLimitMgL,
            sourceMgL: policy.sourceNitrateMgL,
          },
    nitrateReadOn: ask.readOn,
    jump: isSplit ? jumpOf(fraction, ask.water, ask.source, stepGapDays) : jumpWhole,
    wholeLitres: isSplit ? whole : null,
  };
}

/** The most of the policy, and no more than is borne at once. */
function firstAidLitres(netLitres: number, { changeMinPercent, changeMaxPercent }: NitratePolicy): number {
  const mostPercent = Math.min(changeMaxPercent, mostFirstAidPercent);
  const leastPercent = Math.min(changeMinPercent, mostPercent);
  return bucketSizes((netLitres * leastPercent) / 100, (netLitres * mostPercent) / 100).at(-1) ?? 0;
}

/** One of several equal parts, as a bucket measures it; never more than the part. */
const partOf = (litres: number, parts: number): number =>
  bucketSizes((0.8 * litres) / parts, litres / parts).at(-1) ?? litres / parts;

/**
 * The day a tub never changed falls due: spread over its first interval, so that a new rack does not fall due in one evening.
 *
 * @param place  the tub's place among those in use, from 0
 */
export const firstDueOn = (addedOn: LocalDay, place: number, intervalDays: number): LocalDay =>
  addDays(addedOn, place % intervalDays);
