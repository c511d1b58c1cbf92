import type { Business } from '../business.ts';
import { addDays, type LocalDay } from '../day.ts';
import { afterChange, changesTo, fractionTo } from './dilution.ts';

/** Why a change is as large as it is. */
export type ChangeReason = 'towards-limit' | 'capped' | 'least' | 'no-reading' | 'source-too-high' | 'urgent';

/** The change a tub needs next. */
export interface ChangePlan {
  readonly dueOn: LocalDay;
  readonly litres: number;
  readonly percent: number;
  readonly reason: ChangeReason;
  readonly nitrateMgL: number | null;
  readonly afterMgL: number | null;
  /** Changes of this size until the limit, this one included; null: not reachable, or not known. */
  readonly changesToLimit: number | null;
}

type Policy = Pick<
  Business,
  'sourceNitrateMgL' | 'nitrateLimitMgL' | 'changeMinPercent' | 'changeMaxPercent' | 'changeIntervalDays'
>;

/**
 * Litres of the next change: exact dilution towards the limit, inside the policy's bounds, in steps of half a litre.
 *
 * @param netLitres   water in the tub, L
 * @param nitrateMgL  last known nitrate with the changes since taken off, mg/L; null: never measured
 * @param dueOn       the day it falls due
 * @param isUrgent    ammonia or nitrite harms: the most that the policy allows, whatever the nitrate
 */
export function planChange(
  netLitres: number,
  nitrateMgL: number | null,
  dueOn: LocalDay,
  policy: Policy,
  isUrgent = false,
): ChangePlan {
  const least = policy.changeMinPercent / 100;
  const most = policy.changeMaxPercent / 100;
  const towards = nitrateMgL === null ? least : fractionTo(policy.nitrateLimitMgL, nitrateMgL, policy.sourceNitrateMgL);
  const wanted = isUrgent ? most : towards;
  const fraction = Math.min(most, Math.max(least, wanted));
  const mayFallShort = isUrgent || wanted > most;
  const litres = measurable(netLitres * fraction, netLitres * least, netLitres * most, mayFallShort);
  const swapped = litres / netLitres;
  return {
    dueOn,
    litres,
    percent: Math.round(swapped * 100),
    reason: isUrgent ? 'urgent' : reasonOf(nitrateMgL, wanted, least, most),
    nitrateMgL,
    afterMgL: nitrateMgL === null ? null : afterChange(nitrateMgL, swapped, policy.sourceNitrateMgL),
    changesToLimit:
      nitrateMgL === null ? null : changesTo(policy.nitrateLimitMgL, nitrateMgL, policy.sourceNitrateMgL, swapped),
  };
}

function reasonOf(nitrateMgL: number | null, wanted: number, least: number, most: number): ChangeReason {
  if (nitrateMgL === null) return 'no-reading';
  if (wanted === Number.POSITIVE_INFINITY) return 'source-too-high';
  if (wanted > most) return 'capped';
  return wanted > least ? 'towards-limit' : 'least';
}

/** Parts of a litre in which a bucket is filled, coarsest first: halves, tenths, hundredths. */
const partsOfLitre = [2, 10, 100] as const;

/**
 * `litres` in the coarsest parts that stay between the bounds: rounded up, so that the limit is reached; where it is the most and reaches
 * no limit anyway, down by a tenth of it at most.
 */
function measurable(litres: number, leastLitres: number, mostLitres: number, mayFallShort: boolean): number {
  for (const parts of partsOfLitre) {
    const up = Math.ceil(litres * parts - 1e-9) / parts;
    if (up <= mostLitres + 1e-9) return up;
    const down = Math.floor(mostLitres * parts + 1e-9) / parts;
    if (mayFallShort && down >= litres * 0.9 && down >= leastLitres - 1e-9) return down;
  }
  return litres;
}

/**
 * The day a change falls due: the interval after the last one; a tub never changed falls due spread over its first interval, so that a
 * new rack does not fall due in one evening.
 *
 * @param place  the tub's place among those never changed, from 0
 */
export function changeDueOn(
  lastChangedOn: LocalDay | null,
  addedOn: LocalDay,
  place: number,
  intervalDays: number,
): LocalDay {
  return lastChangedOn === null ? addDays(addedOn, place % intervalDays) : addDays(lastChangedOn, intervalDays);
}

/** Nitrate now by the last reading and the changes since, nothing risen: the interim before a rise is known. */
export function nitrateAfter(
  readMgL: number,
  changesSinceLitres: readonly number[],
  netLitres: number,
  sourceMgL: number,
): number {
  return changesSinceLitres.reduce(
    (level, litres) => afterChange(level, Math.min(1, litres / netLitres), sourceMgL),
    readMgL,
  );
}
