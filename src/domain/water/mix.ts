import { fail, ok, type Result } from '../result.ts';
import { type Blend, heldBy, nearestBlend, type ShareBounds, type Side } from './nearestMix.ts';

/** What water holds; null: not known, or as a target: not asked for. */
export interface MixValues {
  readonly ghDgh: number | null;
  readonly khDkh: number | null;
  readonly tdsMgL: number | null;
  readonly nitrateMgL: number | null;
}

export type MixValueName = keyof MixValues;

/** What a mineral salt's label says 1 g in 10 L adds; 0 where it adds none. */
export interface MineralSalt {
  readonly ghDgh: number;
  readonly khDkh: number;
}

export interface MixAsk {
  /** Water to prepare, L, 1 to 2000. */
  readonly litres: number;
  readonly tap: MixValues;
  /** Rain, osmosis or demineralised water. */
  readonly pure: Readonly<Record<MixValueName, number>>;
  /** Null: none is at hand. */
  readonly salt: MineralSalt | null;
  /** GH, KH and TDS are aimed at; nitrate is the most that may come out. */
  readonly target: MixValues;
}

/** A target that was missed, with what comes out instead. */
export interface MixMiss {
  readonly name: MixValueName;
  readonly asked: number;
  readonly comesOut: number;
}

export interface Mix {
  /** To 0.1 L; together the litres asked for, to 0.1 L. */
  readonly tapL: number;
  readonly pureL: number;
  /** To 0.1 g, under 1 g to 0.01 g. */
  readonly saltG: number;
  /** Of the recipe as rounded; null where the tap's value is not known. */
  readonly comesOut: MixValues;
  /** The targets that set the recipe. */
  readonly decides: readonly MixValueName[];
  /** Targets that the others leave no room for: the recipe is the nearest to all. */
  readonly misses: readonly MixMiss[];
}

export type MixFault =
  | { readonly kind: 'no-target' }
  /** The tap's own values have to be known for what is asked. */
  | { readonly kind: 'tap-unknown'; readonly names: readonly MixValueName[] }
  /** More is asked than either water holds, and no salt brings it. */
  | { readonly kind: 'over-sources'; readonly name: MixValueName; readonly asked: number; readonly most: number };

/** Water with nothing in it. */
export const pureWater: MixAsk['pure'] = { ghDgh: 0, khDkh: 0, tdsMgL: 0, nitrateMgL: 0 };

/** mg/L that 1 g in 10 L adds when all of it dissolves. */
const saltTdsMgL = 100;

/** How near is near enough: half a drop of the kits, what a pen can tell. Common practice, no source. */
const nearEnough = { ghDgh: 0.5, khDkh: 0.5, tdsMgL: 10 } as const;
const aimNames = ['ghDgh', 'khDkh', 'tdsMgL'] as const;
const names = [...aimNames, 'nitrateMgL'] as const;

interface Aim extends Side {
  readonly name: (typeof aimNames)[number];
}

/**
 * Litres of tap and pure water, and grams of mineral salt, for a target.
 *
 *   c = (V_tap·c_tap + V_pure·c_pure)/V + d·c_salt        d: grams of salt in 10 L
 *
 * Of the mixes with nitrate at or under its target, the one with GH, KH and TDS nearest to theirs (least squares, in parts of what kits
 * can tell); of equally near ones that with the least salt, then that with the most tap water.
 *
 * Error: that of the tap's values, and half of 0.1 L in rounding. Salt counts for TDS by its mass; a pen may show another figure.
 * Source: mass balance.
 */
export function mixRecipe(ask: MixAsk): Result<Mix, MixFault> {
  const { target, tap, salt } = ask;
  const asked = names.filter((name) => target[name] !== null);
  if (asked.length === 0) return fail({ kind: 'no-target' });
  const unknown = asked.filter((name) => tap[name] === null);
  if (unknown.length > 0) return fail({ kind: 'tap-unknown', names: unknown });

  const aims = aimNames.flatMap((name) => aimFor(ask, name));
  const over = aims.find((aim) => aim.salt === 0 && aim.aim > Math.max(aim.tap, aim.pure) + aim.tolerance);
  if (over !== undefined) {
    return fail({ kind: 'over-sources', name: over.name, asked: over.aim, most: Math.max(over.tap, over.pure) });
  }
  const bounds = nitrateBounds(ask);
  const blend = nearestBlend(aims, bounds, salt !== null);
  const measured = measuredOut(ask.litres, blend, bounds);
  const isHeldByNitrate =
    (bounds.most < 1 && blend.tapShare === bounds.most) || (bounds.least > 0 && blend.tapShare === bounds.least);
  const areAimsHeard = !isHeldByNitrate || blend.saltPer10L > 0;
  const comesOut = comesOutOf(ask, measured);
  return ok({
    ...measured,
    comesOut,
    decides: [
      ...(isHeldByNitrate || aims.length === 0 ? (['nitrateMgL'] as const) : []),
      ...(areAimsHeard ? aims.map(({ name }) => name) : []),
    ],
    misses: missedOf(ask, aims, blend).map((name) => ({
      name,
      asked: target[name] ?? Number.NaN,
      comesOut: comesOut[name] ?? Number.NaN,
    })),
  });
}

const addedBySalt = (salt: MineralSalt | null, name: MixValueName): number => {
  if (salt === null || name === 'nitrateMgL') return 0;
  return name === 'tdsMgL' ? saltTdsMgL : salt[name];
};

function aimFor({ target, tap, pure, salt }: MixAsk, name: Aim['name']): Aim[] {
  const [aim, fromTap] = [target[name], tap[name]];
  if (aim === null || fromTap === null) return [];
  const tolerance = nearEnough[name];
  return [{ name, aim, tap: fromTap, pure: pure[name], salt: addedBySalt(salt, name), tolerance }];
}

/** Shares of tap water that keep nitrate at or under its target, or come nearest to that. */
function nitrateBounds({ target, tap, pure }: MixAsk): ShareBounds {
  const [most, fromTap] = [target.nitrateMgL, tap.nitrateMgL];
  if (most === null || fromTap === null || fromTap === pure.nitrateMgL) return { least: 0, most: 1 };
  const share = Math.min(1, Math.max(0, (most - pure.nitrateMgL) / (fromTap - pure.nitrateMgL)));
  return fromTap > pure.nitrateMgL ? { least: 0, most: share } : { least: share, most: 1 };
}

type Measured = Pick<Mix, 'tapL' | 'pureL' | 'saltG'>;

/** The blend in tenths of a litre and what a scale can weigh; where nitrate holds it, rounded to the side that keeps under. */
function measuredOut(litres: number, { tapShare, saltPer10L }: Blend, bounds: ShareBounds): Measured {
  const tenths = Math.round(litres * 10);
  const lowest = Math.ceil(tenths * bounds.least - 1e-6);
  const highest = Math.floor(tenths * bounds.most + 1e-6);
  const tap = Math.max(lowest, Math.min(highest, Math.round(tenths * tapShare)));
  const grams = (saltPer10L * tenths) / 100;
  const perGram = grams < 1 ? 100 : 10;
  return { tapL: tap / 10, pureL: (tenths - tap) / 10, saltG: Math.round(grams * perGram) / perGram };
}

function comesOutOf({ tap, pure, salt }: MixAsk, { tapL, pureL, saltG }: Measured): MixValues {
  const litres = tapL + pureL;
  const blend = { tapShare: tapL / litres, saltPer10L: (saltG * 10) / litres };
  const of = (name: MixValueName): number | null => {
    const fromTap = tap[name];
    return fromTap === null ? null : heldBy({ tap: fromTap, pure: pure[name], salt: addedBySalt(salt, name) }, blend);
  };
  return { ghDgh: of('ghDgh'), khDkh: of('khDkh'), tdsMgL: of('tdsMgL'), nitrateMgL: of('nitrateMgL') };
}

/** What the recipe leaves further off than is near enough, before it is rounded. */
function missedOf({ target, tap, pure }: MixAsk, aims: readonly Aim[], blend: Blend): MixValueName[] {
  const missed = aims.filter((aim) => Math.abs(heldBy(aim, blend) - aim.aim) > aim.tolerance + 1e-6);
  const [most, fromTap] = [target.nitrateMgL, tap.nitrateMgL];
  const isOver =
    most !== null && fromTap !== null && heldBy({ tap: fromTap, pure: pure.nitrateMgL, salt: 0 }, blend) > most + 1e-6;
  return [...missed.map(({ name }) => name), ...(isOver ? (['nitrateMgL'] as const) : [])];
}
