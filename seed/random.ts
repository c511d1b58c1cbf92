/** A seeded source of chance: the same seed gives the same year. */
export interface Random {
  /** 0 to below 1. */
  next(): number;
  /** From `low` to below `high`. */
  between(low: number, high: number): number;
  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number;
  /** True with this chance, 0 to 1. */
  happens(chance: number): boolean;
  pick<T>(from: readonly [T, ...T[]]): T;
  /** Normally distributed with mean 0 and deviation 1. */
  normal(): number;
}

/** Outputs thrown away, so that seeds that differ in a bit have nothing in common any more. */
const warmUp = 64;

/**
 * Marsaglia's xorshift generator with a state of 128 bits, whole numbers from 0 to 2^32 − 1. Seed 0 is the published start.
 * Source: G. Marsaglia 2003, Xorshift RNGs, J. Stat. Softw. 8(14), section 4.
 */
export function xorshift128(seed: number): () => number {
  let x = 123_456_789 ^ seed;
  let y = 362_436_069;
  let z = 521_288_629;
  let w = 88_675_123;
  return () => {
    const mixed = x ^ (x << 11);
    x = y;
    y = z;
    z = w;
    w = w ^ (w >>> 19) ^ (mixed ^ (mixed >>> 8));
    return w >>> 0;
  };
}

/** @param seed a whole number of up to 32 bits */
export function openRandom(seed: number): Random {
  const draw = xorshift128(seed);
  for (let dropped = 0; dropped < warmUp; dropped++) draw();
  const next = (): number => draw() / 2 ** 32;
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    whole,
    between: (low, high) => low + next() * (high - low),
    happens: (chance) => next() < chance,
    pick: (from) => from[whole(0, from.length - 1)] ?? from[0],
    // Box and Muller 1958; 1 − next() is never 0, whose logarithm there is not.
    normal: () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  };
}
