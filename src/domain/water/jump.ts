import { afterChange } from './dilution.ts';

/** What a change may move at once, as last known; null: not known. */
export interface MovedWater {
  readonly tempC: number | null;
  readonly tdsMgL: number | null;
  readonly ghDgh: number | null;
}

/** How far one change moves one value. */
export interface MovedValue {
  readonly of: 'temperature' | 'tds' | 'gh';
  readonly before: number;
  readonly after: number;
  /** After less before: °C, mg/L or °dGH. */
  readonly by: number;
  /** Most that one change should move it, in the same unit. */
  readonly limit: number;
}

export interface Jump {
  /** The values known of tub and source, the one furthest over its limit first. */
  readonly moves: readonly MovedValue[];
  /** Equal parts that the change is best made in; 1: as it is. */
  readonly parts: number;
  /** One part, as a share of the net volume. */
  readonly partFraction: number;
  /** Days between the parts. */
  readonly gapDays: number;
  /** What the new water may have for one whole change, °C; null: the tub's temperature is not known. */
  readonly newWaterC: { readonly from: number; readonly to: number } | null;
}

/** Most that one change should move the temperature, °C, and GH, °dGH. Common practice, no source. */
export const jumpLimits = { tempC: 2, ghDgh: 2 } as const;

/** Most that one change should move TDS, mg/L: 15 % of the tub's own, and 40 where that is less. Common practice, no source. */
export const tdsJumpLimitMgL = (tubMgL: number): number => Math.max(40, 0.15 * tubMgL);

const ratio = ({ by, limit }: MovedValue): number => Math.abs(by) / limit;

/**
 * How far a change moves temperature, TDS and GH, and the parts to split it in where that is too far: mineral jumps cost moults.
 *
 *   by = f·(c_source − c_tub)        parts = ⌈max |by| / limit⌉
 *
 * Later parts move less than the first; together they swap a little less than the whole (`swappedTogether`).
 *
 * @param fraction  of the net volume, over 0 to 1
 * @param tub       as it is now
 * @param source    as it goes in: the temperature is that of the new water, not of the tap
 * @param gapDays   days between the parts, as the planner keeps them
 * Error: that of the readings; a thermometer is off by up to 1 °C, a pen by 2 %. Source: mass balance; the limits have none.
 */
export function jumpOf(fraction: number, tub: MovedWater, source: MovedWater, gapDays: number): Jump {
  const move = (of: MovedValue['of'], before: number | null, from: number | null, limit: number): MovedValue[] => {
    if (before === null || from === null) return [];
    const after = afterChange(before, fraction, from);
    return [{ of, before, after, by: after - before, limit }];
  };
  const moves = [
    ...move('temperature', tub.tempC, source.tempC, jumpLimits.tempC),
    ...move('tds', tub.tdsMgL, source.tdsMgL, tdsJumpLimitMgL(tub.tdsMgL ?? 0)),
    ...move('gh', tub.ghDgh, source.ghDgh, jumpLimits.ghDgh),
  ].sort((a, b) => ratio(b) - ratio(a));
  const parts = Math.max(1, ...moves.map((one) => Math.ceil(ratio(one) - 1e-9)));
  const apartC = jumpLimits.tempC / fraction;
  return {
    moves,
    parts,
    partFraction: fraction / parts,
    gapDays,
    newWaterC: tub.tempC === null ? null : { from: tub.tempC - apartC, to: tub.tempC + apartC },
  };
}
