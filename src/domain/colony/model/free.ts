import type { Range } from './range.ts';
import { quantilesOf, rangeOf } from './range.ts';
import { slopeShare } from './slopeShare.ts';

/** What may be promised of a line. */
export interface FreeToPromise extends Range {
  /** Lower 10 % quantile, whole animals rounded down; below 0 where more is promised than is surely there. */
  readonly free: number;
  /** Whole tens of it that may be offered, 0 and up. */
  readonly offer: number;
}

/** Animals of a line over the breeders of each tub, in each member: Σ max(0, saleable − held back). A poor tub owes nothing to a rich one. */
export function spareOver(tubs: readonly Float32Array[], holdBack: number): Float64Array {
  const spare = new Float64Array(tubs[0]?.length ?? 0);
  for (const saleable of tubs) {
    for (let member = 0; member < spare.length; member++) {
      spare[member] = (spare[member] ?? 0) + Math.max(0, (saleable[member] ?? 0) - holdBack);
    }
  }
  return spare;
}

/**
 * Free to promise: the lower 10 % quantile of what a line's tubs have over their breeders, the sum taken inside each member, less what is promised.
 *
 * @param tubs     saleable animals by member (`saleableOf`), of each tub that may give: counted, on sale, not kept apart
 * @param holdBack breeders held back per tub
 * @param promised animals promised, extras included, that are still in the tubs
 */
export function freeToPromise(tubs: readonly Float32Array[], holdBack: number, promised: number): FreeToPromise {
  if (tubs.length === 0)
    return { free: 0 - promised, offer: 0, low: 0 - promised, median: 0 - promised, high: 0 - promised };
  const left = spareOver(tubs, holdBack).map((spare) => spare - promised);
  const [surely = 0] = quantilesOf(left, [0.1]);
  const free = Math.floor(surely);
  return { ...rangeOf(left), free, offer: Math.max(0, Math.floor(free / 10) * 10) };
}

/** Which tub's count would tell most of what is free. */
export interface SharpestCount<Tub> {
  readonly tub: Tub;
  /** Share of the doubt about what is free (its variance) that would go, 0 to 1. */
  readonly share: number;
}

/**
 * The tub whose count would narrow what is free most: whose spare animals explain most of the variance of the sum over the members. Null where
 * there is no doubt.
 */
export function sharpestCount<Tub>(
  tubs: readonly { readonly tub: Tub; readonly saleable: Float32Array }[],
  holdBack: number,
): SharpestCount<Tub> | null {
  const total = spareOver(
    tubs.map(({ saleable }) => saleable),
    holdBack,
  );
  let best: SharpestCount<Tub> | null = null;
  for (const { tub, saleable } of tubs) {
    const share = slopeShare(spareOver([saleable], holdBack), total);
    if (share > (best?.share ?? 0)) best = { tub, share };
  }
  return best;
}
