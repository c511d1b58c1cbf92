/** The finaliser of MurmurHash3 (public domain; constants from memory, the tests look at its spread): 32 bits, thoroughly mixed. */
function mixed(value: number): number {
  let bits = value | 0;
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return (bits ^ (bits >>> 16)) >>> 0;
}

/** What is drawn for. The numbers are part of every result. */
export const purposes = { daily: 1, drift: 2, past: 3, house: 4, moved: 5, ahead: 6, driftAhead: 7 } as const;

const seed = 0x5eed;

/**
 * Where the draws for a tub, a day and a purpose begin. Chance has no state: what is drawn depends on what it is for alone, so that a replay draws
 * the same again, from wherever it begins.
 *
 * @param tubId 0: what all tubs of the house have in common
 */
export const streamOf = (tubId: number, day: number, purpose: number): number =>
  mixed(mixed(mixed(seed ^ tubId) ^ day) ^ purpose);

const golden = 0x9e3779b1;

/** 32 even bits of a member in a stream. */
export const bitsOf = (stream: number, member: number): number => mixed(stream ^ Math.imul(member + 1, golden));

/** 0 to below 1. */
export const shareOf = (bits: number): number => bits / 2 ** 32;

const fourBytesMean = 4 * 127.5;
const fourBytesSd = Math.sqrt((4 * (256 ** 2 - 1)) / 12);

/** About normal, mean 0 and deviation 1: the sum of four bytes, within ± 3.45. */
export const normalOf = (bits: number): number =>
  ((bits & 255) + ((bits >>> 8) & 255) + ((bits >>> 16) & 255) + (bits >>> 24) - fourBytesMean) / fourBytesSd;

const twoBytesSd = Math.sqrt((2 * (256 ** 2 - 1)) / 12);

/** Mean 0 and deviation 1 within ± 2.44, from 16 bits: enough where many days add up. */
export const noiseOf = (bits16: number): number => ((bits16 & 255) + (bits16 >>> 8) - 255) / twoBytesSd;

/** Below the first a number of events is none or one; from the second on it is about normal, and never below 0. */
const [rare, many] = [0.25, 6];

/**
 * How many of independent events happen of which `mean` are expected: Poisson's numbers, from 16 bits; their mean is exact however small it is.
 * From 6 up rounded to nothing: a normal value of the same mean and variance.
 */
export function eventsOf(mean: number, bits16: number): number {
  if (mean >= many) return mean + Math.sqrt(mean) * noiseOf(bits16);
  let share = (bits16 + 0.5) / 65536;
  if (mean < rare) return share < mean ? 1 : 0;
  let chance = Math.exp(-mean);
  let number = 0;
  while (share > chance && number < 30) {
    share -= chance;
    number += 1;
    chance *= mean / number;
  }
  return number;
}

/** The numbers from 0 to `count` − 1 in an order of the stream's own. */
export const shuffled = (stream: number, count: number): number[] =>
  Array.from({ length: count }, (_, nth) => nth).sort((a, b) => bitsOf(stream, a) - bitsOf(stream, b) || a - b);
