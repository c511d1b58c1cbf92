import type { LocalDay } from '../../day.ts';
import { females, males, memberCount, stateLength } from './layout.ts';

/** How far off something was so far, against what was expected of it: Σ weight·z² and Σ weight. */
export interface Misses {
  readonly squares: number;
  readonly weight: number;
}

/** What a tub's colony is believed to be at the end of a day: an ensemble of possible truths. Conclusions, never facts. */
export interface Colony {
  readonly tubId: number;
  /** The day at whose end it stands; facts of that day are in it. */
  readonly day: LocalDay;
  /** `stateLength` numbers, see layout.ts. Not to be written to. */
  readonly numbers: Float32Array;
  /** How far counts were off the model. */
  readonly model: Misses;
  /** How far counts at the dish, and at a glance, were off beyond that. */
  readonly dish: Misses;
  readonly glance: Misses;
  /** Animals that were logged as found dead and stand for deaths that the model would have happen in these weeks. */
  readonly loggedDeaths: number;
}

/** A colony that is being taken on, in place; whoever hands it out does so as a `Colony`. */
export type Draft = { -readonly [Key in keyof Colony]: Colony[Key] };

export const noMisses: Misses = { squares: 0, weight: 0 };

/** A draft that can be written to without the colony noticing. */
export const draftOf = (colony: Colony): Draft => ({ ...colony, numbers: colony.numbers.slice() });

/** A draft with nothing in it but the numbers. */
export function draftFrom(tubId: number, day: LocalDay, numbers: Float32Array): Draft {
  if (numbers.length !== stateLength) throw new Error(`a state has ${stateLength} numbers, not ${numbers.length}`);
  return { tubId, day, numbers, model: noMisses, dish: noMisses, glance: noMisses, loggedDeaths: 0 };
}

/** One miss more: `z` standard deviations off, `weight` of which is laid on the thing that is judged. One miss counts up to 3 deviations. */
export const withMiss = ({ squares, weight }: Misses, z: number, share: number): Misses => ({
  squares: squares + share * Math.min(9, z * z),
  weight: weight + share,
});

/**
 * By how much wider or narrower than thought something is, as a factor on its standard deviation: the root mean square of the misses, drawn to 1
 * as if `trust` misses of just the expected size had been seen before.
 *
 * @param least, most  bounds of the factor
 */
export const widthOf = ({ squares, weight }: Misses, trust: number, least: number, most: number): number =>
  Math.min(most, Math.max(least, Math.sqrt((trust + squares) / (trust + weight))));

/** Saleable animals in each member. */
export function saleableOf({ numbers }: Pick<Colony, 'numbers'>): Float32Array {
  const found = numbers.slice(females * memberCount, (females + 1) * memberCount);
  for (let member = 0; member < memberCount; member++) {
    found[member] = (found[member] ?? 0) + (numbers[males * memberCount + member] ?? 0);
  }
  return found;
}
