import { bitsOf, normalOf, streamOf } from './chance.ts';
import { naturalScale, normalScale, traits } from './traits.ts';

/** Whose draws: one tub's. */
export interface DriftOf {
  readonly tubId: number;
  /** Number of the day, or of the step ahead. */
  readonly day: number;
  readonly purpose: number;
}

/**
 * Lets one trait of a tub drift, in place: the traits take turns, and each drifts for as many days as passed since its last turn. A deviation from
 * the median fades and fresh chance comes in, so that the spread of what was never counted stays that of the prior, and the spread of what was
 * counted comes back with time: the members cannot collapse.
 *
 *   z' = m + e·(z − m) + σ·√(1 − e²)·(√h·house + √(1 − h)·own), e = exp(−days/memory)        Ornstein–Uhlenbeck
 *
 * @param turn whose turn it is, 0 and up
 * @param days since this trait's last turn
 */
export function drift(numbers: Float32Array, members: number, turn: number, days: number, of: DriftOf): void {
  const trait = traits[turn % traits.length];
  if (trait === undefined) return;
  const kept = Math.exp(-days / trait.memoryDays);
  const fresh = trait.sd * Math.sqrt(1 - kept * kept);
  const ofHouse = fresh * Math.sqrt(trait.houseShare);
  const ofTub = fresh * Math.sqrt(1 - trait.houseShare);
  const house = streamOf(0, of.day, of.purpose);
  const own = streamOf(of.tubId, of.day, of.purpose);
  const middle = normalScale(trait, trait.median);
  const row = trait.row * members;
  for (let member = 0; member < members; member++) {
    const was = normalScale(trait, numbers[row + member] ?? 0);
    const push = ofHouse * normalOf(bitsOf(house, member)) + ofTub * normalOf(bitsOf(own, member));
    numbers[row + member] = naturalScale(trait, middle + kept * (was - middle) + push);
  }
}
