/** One value that a mix is aimed at, in the value's own unit. */
export interface Side {
  readonly aim: number;
  readonly tap: number;
  readonly pure: number;
  /** What 1 g of salt in 10 L adds. */
  readonly salt: number;
  /** How near is near enough: the measure in which misses are weighed. */
  readonly tolerance: number;
}

/** A mix without its litres. */
export interface Blend {
  /** Tap water's share of the whole, 0 to 1. */
  readonly tapShare: number;
  /** Grams of salt in 10 L, 0 and up. */
  readonly saltPer10L: number;
}

/** Bounds of the tap's share, 0 to 1. */
export interface ShareBounds {
  readonly least: number;
  readonly most: number;
}

/** What a blend holds of a value. */
export const heldBy = ({ tap, pure, salt }: Omit<Side, 'aim' | 'tolerance'>, blend: Blend): number =>
  pure + blend.tapShare * (tap - pure) + blend.saltPer10L * salt;

/** Sum over the sides of squared misses, each in parts of its tolerance. */
const costOf = (sides: readonly Side[], blend: Blend): number =>
  sides.reduce((sum, side) => sum + ((heldBy(side, blend) - side.aim) / side.tolerance) ** 2, 0);

/**
 * The blend inside the bounds that comes nearest to every aim, by least squares; of equally near ones that with the least salt, then that
 * with the most tap water. The cost is convex, so the least lies at the free minimum or on an edge.
 * @param hasSalt  without, no salt is taken
 */
export function nearestBlend(sides: readonly Side[], bounds: ShareBounds, hasSalt: boolean): Blend {
  const edges = [withoutSalt(sides, bounds), ...(hasSalt ? bothEnds(sides, bounds) : [])];
  const free = hasSalt ? freeMinimum(sides, bounds) : null;
  const [first, ...others] = free === null ? edges : [...edges, free];
  if (first === undefined) throw new Error('a blend has an edge');
  return others.reduce((best, blend) => (isBetter(sides, blend, best) ? blend : best), first);
}

const near = 1e-9;

function isBetter(sides: readonly Side[], one: Blend, other: Blend): boolean {
  const gain = costOf(sides, other) - costOf(sides, one);
  if (Math.abs(gain) > near) return gain > 0;
  if (Math.abs(one.saltPer10L - other.saltPer10L) > near) return one.saltPer10L < other.saltPer10L;
  return one.tapShare > other.tapShare;
}

/** Sum over the sides of a product, in parts of their tolerances. */
const weighed = (sides: readonly Side[], product: (side: Side) => number): number =>
  sides.reduce((sum, side) => sum + product(side) / side.tolerance ** 2, 0);

function withoutSalt(sides: readonly Side[], { least, most }: ShareBounds): Blend {
  const squares = weighed(sides, ({ tap, pure }) => (tap - pure) ** 2);
  const wanted = weighed(sides, ({ tap, pure, aim }) => (tap - pure) * (aim - pure)) / squares;
  return { tapShare: squares === 0 ? most : Math.min(most, Math.max(least, wanted)), saltPer10L: 0 };
}

/** The best salt with the least and with the most tap water. */
const bothEnds = (sides: readonly Side[], { least, most }: ShareBounds): Blend[] =>
  [least, most].map((tapShare) => {
    const squares = weighed(sides, ({ salt }) => salt ** 2);
    const missing = weighed(sides, (side) => side.salt * (side.aim - heldBy(side, { tapShare, saltPer10L: 0 })));
    return { tapShare, saltPer10L: squares === 0 ? 0 : Math.max(0, missing / squares) };
  });

/** The minimum without bounds, by the normal equations; null where it is none, or lies outside. */
function freeMinimum(sides: readonly Side[], { least, most }: ShareBounds): Blend | null {
  const tapTap = weighed(sides, ({ tap, pure }) => (tap - pure) ** 2);
  const tapSalt = weighed(sides, ({ tap, pure, salt }) => (tap - pure) * salt);
  const saltSalt = weighed(sides, ({ salt }) => salt ** 2);
  const tapAim = weighed(sides, ({ tap, pure, aim }) => (tap - pure) * (aim - pure));
  const saltAim = weighed(sides, ({ salt, pure, aim }) => salt * (aim - pure));
  const determinant = tapTap * saltSalt - tapSalt ** 2;
  if (determinant <= near * tapTap * saltSalt) return null;
  const tapShare = (tapAim * saltSalt - saltAim * tapSalt) / determinant;
  const saltPer10L = (saltAim * tapTap - tapAim * tapSalt) / determinant;
  return tapShare >= least && tapShare <= most && saltPer10L >= 0 ? { tapShare, saltPer10L } : null;
}
