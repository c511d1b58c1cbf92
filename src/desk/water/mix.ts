import {
  fail,
  type Mix,
  type MixFault,
  type MixValues,
  mixRecipe,
  ok,
  possible,
  pureWater,
  type Result,
  tapOf,
} from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';

export interface MixInput {
  readonly litres: number;
  readonly gh?: number | undefined;
  readonly kh?: number | undefined;
  readonly tds?: number | undefined;
  readonly nitrate?: number | undefined;
  /** What the label of a mineral salt says 1 g in 10 L adds, °dGH and °dKH. */
  readonly saltGh?: number | undefined;
  readonly saltKh?: number | undefined;
}

export type MixInputName = keyof MixInput;

/** Why there is no recipe. Nothing is logged either way. */
export type MixRefusal =
  | MixFault
  | {
      readonly kind: 'impossible-mix';
      readonly name: MixInputName;
      readonly typed: number;
      readonly min: number;
      readonly max: number;
    };

export interface MixPrepared {
  readonly target: MixValues;
  readonly tap: MixValues;
  readonly mix: Mix;
}

/** What can be asked. No salt adds more than burnt lime would, 10 °dGH with 1 g in 10 L; the other bounds are ours. */
const bounds: Readonly<Record<MixInputName, { readonly min: number; readonly max: number }>> = {
  litres: { min: 1, max: 2000 },
  gh: possible.ghDgh,
  kh: possible.khDkh,
  tds: possible.tdsMgL,
  nitrate: possible.nitrateMgL,
  saltGh: { min: 0.1, max: 10 },
  saltKh: { min: 0.1, max: 10 },
};

const inputNames = Object.keys(bounds) as MixInputName[];

/** A recipe of the set source water and pure water for a target. */
export function prepareMix(desk: Desk, input: MixInput): Result<MixPrepared, MixRefusal> {
  for (const name of inputNames) {
    const typed = input[name];
    const { min, max } = bounds[name];
    if (typed === undefined || (typed >= min && typed <= max)) continue;
    return fail({ kind: 'impossible-mix', name, typed, min, max });
  }
  const business = businessOf(desk);
  const tap = tapOf(business);
  const target = {
    ghDgh: input.gh ?? null,
    khDkh: input.kh ?? null,
    tdsMgL: input.tds ?? null,
    nitrateMgL: input.nitrate ?? null,
  };
  const hasSalt = input.saltGh !== undefined || input.saltKh !== undefined;
  const salt = hasSalt ? { ghDgh: input.saltGh ?? 0, khDkh: input.saltKh ?? 0 } : null;
  const mix = mixRecipe({ litres: input.litres, tap, pure: pureWater, salt, target });
  return mix.ok ? ok({ target, tap, mix: mix.value }) : mix;
}
