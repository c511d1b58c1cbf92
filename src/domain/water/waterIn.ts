import type { Business } from '../business.ts';
import { type Mix, type MixValues, mixRecipe, pureWater } from './mix.ts';

/** The water that goes into the tubs: mixed to the target where one is set and can be reached, else as it comes from the tap. */
export interface WaterIn {
  readonly values: MixValues & { readonly nitrateMgL: number };
  /** Null: no target is set, or there is no recipe for it. */
  readonly recipeFor: ((litres: number) => Mix | null) | null;
}

/** What the tap water holds, as set. */
export const tapOf = (business: Business): MixValues & { readonly nitrateMgL: number } => ({
  ghDgh: business.sourceGhDgh,
  khDkh: business.sourceKhDkh,
  tdsMgL: business.sourceTdsMgL,
  nitrateMgL: business.sourceNitrateMgL,
});

/** Litres for which a recipe is as exact as it gets. */
const manyLitres = 1000;

export function waterIn(business: Business): WaterIn {
  const tap = tapOf(business);
  const target: MixValues = {
    ghDgh: business.targetGhDgh,
    khDkh: business.targetKhDkh,
    tdsMgL: business.targetTdsMgL,
    nitrateMgL: business.targetNitrateMgL,
  };
  if (Object.values(target).every((value) => value === null)) return { values: tap, recipeFor: null };
  const hasSalt = business.saltGhDgh !== null || business.saltKhDkh !== null;
  const salt = hasSalt ? { ghDgh: business.saltGhDgh ?? 0, khDkh: business.saltKhDkh ?? 0 } : null;
  const recipe = (litres: number): Mix | null => {
    const mix = mixRecipe({ litres, tap, pure: pureWater, salt, target });
    return mix.ok ? mix.value : null;
  };
  const mixed = recipe(manyLitres)?.comesOut;
  if (mixed === undefined) return { values: tap, recipeFor: null };
  return { values: { ...mixed, nitrateMgL: mixed.nitrateMgL ?? tap.nitrateMgL }, recipeFor: recipe };
}
