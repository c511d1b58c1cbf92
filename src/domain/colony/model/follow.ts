import { memberCount, young, youngBoxes } from './layout.ts';
import { type Spread, spreadOf } from './spread.ts';
import { naturalScale, normalScale, type Trait, traits } from './traits.ts';

const members = memberCount;

/** Members further out than this count as if they were here when a slope is taken, standard deviations: a few stray ones must not turn it. */
const slopeReach = 2;
/** A count that is further off than this moves nothing else any further, standard deviations: then something happened that the model does not know. */
const mostPush = 2.5;
/** Added to the animals of a box before the logarithm. */
const boxHalf = 0.1;
/** One count multiplies or divides the young of a box by this much at most, as a logarithm. */
const mostBoxStep = 1.2;
/** No tub is like nothing that was ever believed: traits stay within so many deviations of what they were thought to be at first. */
const traitReach = 3;

const within = (z: number, reach: number): number => Math.min(reach, Math.max(-reach, z));

/**
 * Slopes on a quantity over the members, by values drawn in to two deviations, and shrunk by what correlation chance alone gives in so few members:
 * r² − (1 − r²)/(n − 2) of r² is believed.
 */
function slopesOn(quantity: Float64Array, { mean, sd }: Spread): (other: Float64Array) => number {
  const drawnIn = quantity.map((value) => within((value - mean) / sd, slopeReach));
  const middle = drawnIn.reduce((sum, value) => sum + value, 0) / members;
  const off = drawnIn.map((value) => value - middle);
  const squares = off.reduce((sum, value) => sum + value * value, 0);
  return (other) => {
    const own = spreadOf(other);
    if (own.sd === 0) return 0;
    let [sumU, squaresU, products] = [0, 0, 0];
    for (let member = 0; member < members; member++) {
      const u = within(((other[member] ?? 0) - own.mean) / own.sd, slopeReach);
      sumU += u;
      squaresU += u * u;
      products += u * (off[member] ?? 0);
    }
    const explained = Math.min(1, (products * products) / ((squaresU - (sumU * sumU) / members) * squares));
    const believed = explained - (1 - explained) / (members - 2);
    return believed > 0 ? ((products / squares) * own.sd * (believed / explained)) / sd : 0;
  };
}

/**
 * Lets what was not counted follow what was, in place: young by box, and traits, each by its regression on the quantity over the members, on
 * the scale on which it is normal.
 *
 * @param before the quantity in each member, and `after` the update
 * @param follows whether a trait follows
 */
export function follow(
  numbers: Float32Array,
  before: Float64Array,
  after: Float64Array,
  follows: (trait: Trait) => boolean,
): void {
  const spread = spreadOf(before);
  if (spread.sd < 1e-9) return;
  const most = mostPush * spread.sd;
  const push = before.map((was, member) => within((after[member] ?? 0) - was, most));
  const slopeOf = slopesOn(before, spread);
  const column = new Float64Array(members);
  const move = (
    row: number,
    to: (value: number) => number,
    from: (scaled: number) => number,
    bound: (scaled: number, was: number) => number,
  ): void => {
    for (let member = 0; member < members; member++) column[member] = to(numbers[row * members + member] ?? 0);
    const slope = slopeOf(column);
    if (slope === 0) return;
    for (let member = 0; member < members; member++) {
      const was = column[member] ?? 0;
      numbers[row * members + member] = from(bound(was + slope * (push[member] ?? 0), was));
    }
  };
  for (let row = young; row < young + youngBoxes; row++) {
    move(
      row,
      (animals) => Math.log(animals + boxHalf),
      (log) => Math.max(0, Math.exp(log) - boxHalf),
      (log, was) => was + within(log - was, mostBoxStep),
    );
  }
  for (const trait of traits) {
    if (!follows(trait)) continue;
    const middle = normalScale(trait, trait.median);
    move(
      trait.row,
      (value) => normalScale(trait, value),
      (scaled) => naturalScale(trait, scaled),
      (scaled) => middle + within(scaled - middle, traitReach * trait.sd),
    );
  }
}
