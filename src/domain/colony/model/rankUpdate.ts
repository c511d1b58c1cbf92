import type { Likelihood } from './likelihood.ts';
import { spreadOf } from './spread.ts';

/** Standard deviation of what is left to the unknown, on the scale of the quantity. */
const unknownSd = 0.6;
/** Logistic scale of a standard deviation. */
const logisticScale = Math.sqrt(3) / Math.PI;

/** Places at which the likelihood is looked at beside the members': about its top, ever further apart, and evenly over everything. */
const [topPlaces, widePlaces, wideReach] = [49, 24, 3];
/** Standard deviations from the top at such a place, from −1 to 1: close together at the top, out to where the tails weigh nothing. */
const topReach = (at: number): number => 4 * at + 20 * at ** 5;
/** Scale of the tails beyond the outermost members, standard deviations. */
const tailScale = 0.45;
const leastSd = 1e-3;

/**
 * Bayes' rule for one quantity, member by member: the members' values, and about them a wide doubt for what they know nothing of, are the prior; times
 * the likelihood that is the posterior; and each member takes the posterior's value at its own rank. So all members stay, at distinct values, however sure the count, and a
 * member that was high in this tub stays high, which keeps what tubs of a house have in common.
 *
 * Source: rank histogram filter, Anderson 2010, Mon. Weather Rev. 138: 4186–4198 (from memory), with a contaminated prior; densities are taken
 * as even between two places.
 *
 * @param prior   values of the members, two or more
 * @param unknown share of the prior that is the wide doubt, over 0 to 1
 * @returns the members' new values, in the order of `prior`
 */
export function rankUpdate(prior: Float64Array, seen: Likelihood, unknown: number): Float64Array {
  const count = prior.length;
  const order = Array.from(prior.keys()).sort((a, b) => (prior[a] ?? 0) - (prior[b] ?? 0) || a - b);
  const sorted = Float64Array.from(order, (member) => prior[member] ?? 0);
  const places = placesOf(sorted, seen);
  const below = belowPrior(sorted, unknown);
  const logs = Float64Array.from(places, seen.log);
  const top = logs.reduce((highest, log) => Math.max(highest, log), Number.NEGATIVE_INFINITY);
  const sums = new Float64Array(places.length);
  let [priorBefore, likeBefore] = [below(places[0] ?? 0), Math.exp((logs[0] ?? 0) - top)];
  for (let at = 1; at < places.length; at++) {
    const [priorHere, likeHere] = [below(places[at] ?? 0), Math.exp((logs[at] ?? 0) - top)];
    sums[at] = (sums[at - 1] ?? 0) + (Math.max(0, priorHere - priorBefore) * (likeBefore + likeHere)) / 2;
    [priorBefore, likeBefore] = [priorHere, likeHere];
  }
  const total = sums[places.length - 1] ?? 0;
  const found = new Float64Array(count);
  let at = 1;
  order.forEach((member, rank) => {
    const wanted = ((rank + 0.5) / count) * total;
    while (at < places.length - 1 && (sums[at] ?? 0) < wanted) at++;
    const [from, to] = [sums[at - 1] ?? 0, sums[at] ?? 0];
    const share = to > from ? Math.min(1, (wanted - from) / (to - from)) : 0.5;
    found[member] = (places[at - 1] ?? 0) + share * ((places[at] ?? 0) - (places[at - 1] ?? 0));
  });
  return found;
}

function placesOf(sorted: Float64Array, { centre, sd }: Likelihood): Float64Array {
  const [lowest, highest] = [sorted[0] ?? 0, sorted[sorted.length - 1] ?? 0];
  const margin = wideReach * Math.max(sd, spreadOf(sorted).sd, leastSd);
  const [from, to] = [Math.min(lowest, centre) - margin, Math.max(highest, centre) + margin];
  const places = new Float64Array(sorted.length + topPlaces + widePlaces);
  places.set(sorted);
  for (let nth = 0; nth < topPlaces; nth++) {
    places[sorted.length + nth] = centre + topReach((2 * nth) / (topPlaces - 1) - 1) * sd;
  }
  for (let nth = 0; nth < widePlaces; nth++) {
    places[sorted.length + topPlaces + nth] = from + ((to - from) * nth) / (widePlaces - 1);
  }
  return places.sort();
}

/** Distribution function of the prior; asked at ascending places. */
function belowPrior(sorted: Float64Array, unknown: number): (at: number) => number {
  const count = sorted.length;
  const { mean, sd } = spreadOf(sorted);
  const [first, last] = [sorted[0] ?? 0, sorted[count - 1] ?? 0];
  const tail = tailScale * Math.max(sd, leastSd);
  const wide = logisticScale * Math.hypot(sd, unknownSd);
  let rank = 0;
  const ofMembers = (at: number): number => {
    if (at < first) return (0.5 / count) * Math.exp((at - first) / tail);
    if (at >= last) return 1 - (0.5 / count) * Math.exp((last - at) / tail);
    while (rank < count - 2 && (sorted[rank + 1] ?? 0) <= at) rank++;
    const [from, to] = [sorted[rank] ?? 0, sorted[rank + 1] ?? 0];
    return (rank + 0.5 + (to > from ? (at - from) / (to - from) : 1)) / count;
  };
  return (at) => (1 - unknown) * ofMembers(at) + unknown / (1 + Math.exp((mean - at) / wide));
}
