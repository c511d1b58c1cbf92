/**
 * What a value of a rate rests on at one temperature (or length, or density):
 * published: a paper has a figure there; interpolated: between two such figures; assumed: common practice, a related species, or held
 * at the last figure beyond the range. Where a paper was read in part or second hand, the rate's docstring says so.
 */
export type RateSupport = 'published' | 'interpolated' | 'assumed';

/** One known value of a rate. */
export interface RateAnchor {
  readonly at: number;
  readonly value: number;
  readonly from: 'published' | 'assumed';
}

/** A rate by its anchors, in ascending order, two at least. */
export type RateCurve = readonly RateAnchor[];

/** Papers hold temperatures within this much (± 0.5 °C in Serezli et al. 2017). */
const heldWithin = 0.5;

/** Value of a curve: a straight line between two anchors; beyond the first and the last it is held, nothing is extrapolated. */
export function valueAt(curve: RateCurve, at: number): number {
  let below = curve[0];
  for (const anchor of curve) {
    if (below !== undefined && at < anchor.at) {
      const span = anchor.at - below.at;
      return span > 0 ? below.value + ((anchor.value - below.value) * Math.max(0, at - below.at)) / span : below.value;
    }
    below = anchor;
  }
  return below?.value ?? Number.NaN;
}

/** What the value of a curve rests on there. */
export function supportAt(curve: RateCurve, at: number): RateSupport {
  if (curve.some((anchor) => anchor.from === 'published' && Math.abs(anchor.at - at) <= heldWithin)) return 'published';
  const below = curve.findLast((anchor) => anchor.at <= at);
  const above = curve.find((anchor) => anchor.at >= at);
  return below?.from === 'published' && above?.from === 'published' ? 'interpolated' : 'assumed';
}
