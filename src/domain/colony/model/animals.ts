import { bitsOf, normalOf, purposes, streamOf } from './chance.ts';
import type { Draft } from './colony.ts';
import {
  broodBoxes,
  broods,
  femaleLean,
  females,
  males,
  memberCount,
  shrimpletBoxes,
  young,
  youngBoxes,
} from './layout.ts';

const members = memberCount;

/** Sum over `count` rows from `first`, of a member. */
export function sumOf(numbers: Float32Array, first: number, count: number, member: number): number {
  let sum = 0;
  for (let row = first; row < first + count; row++) sum += numbers[row * members + member] ?? 0;
  return sum;
}

/** Saleable animals of a member. */
export const grownOf = (numbers: Float32Array, member: number): number => sumOf(numbers, females, 2, member);
/** Juveniles of a member: young that are no shrimplets any more. */
export const juvenilesOf = (numbers: Float32Array, member: number): number =>
  sumOf(numbers, young + shrimpletBoxes, youngBoxes - shrimpletBoxes, member);
/** Females with eggs of a member. */
export const berriedOf = (numbers: Float32Array, member: number): number => sumOf(numbers, broods, broodBoxes, member);

/** Multiplies `count` rows from `first`, of a member. */
export function scale(numbers: Float32Array, first: number, count: number, member: number, times: number): void {
  for (let row = first; row < first + count; row++) {
    const at = row * members + member;
    numbers[at] = (numbers[at] ?? 0) * times;
  }
}

/** Fewer than this is nobody: what a ratio is not taken from. */
const nobody = 0.01;

/** Gives a member so many saleable animals, sexes and broods in the ratio it had; half and half where it had none. */
export function setGrown(numbers: Float32Array, member: number, grown: number): void {
  const was = grownOf(numbers, member);
  if (was > nobody) {
    scale(numbers, broods, broodBoxes + 2, member, grown / was);
    return;
  }
  scale(numbers, broods, broodBoxes, member, 0);
  numbers[females * members + member] = grown / 2;
  numbers[males * members + member] = grown / 2;
}

/** Gives a member so many females with eggs, as many as it has females at most. */
export function setBerried(numbers: Float32Array, member: number, berried: number): void {
  const now = Math.min(berried, numbers[females * members + member] ?? 0);
  const was = berriedOf(numbers, member);
  if (was > nobody) {
    scale(numbers, broods, broodBoxes, member, now / was);
    return;
  }
  for (let row = broods; row < broods + broodBoxes; row++) numbers[row * members + member] = now / broodBoxes;
}

/**
 * Takes saleable animals off a member, all it has at most: as they come, or, for a buyer, those without eggs first.
 */
export function takeGrown(numbers: Float32Array, member: number, number: number, sparesBerried: boolean): void {
  const [femaleAt, maleAt] = [females * members + member, males * members + member];
  const [femalesNow, malesNow] = [numbers[femaleAt] ?? 0, numbers[maleAt] ?? 0];
  const berried = berriedOf(numbers, member);
  const free = Math.max(0, femalesNow - (sparesBerried ? berried : 0));
  const first = Math.min(number, free + malesNow);
  const ofMales = free + malesNow > 0 ? (first * malesNow) / (free + malesNow) : 0;
  const left = Math.max(0, femalesNow - (first - ofMales) - Math.max(0, number - first));
  numbers[maleAt] = Math.max(0, malesNow - ofMales);
  numbers[femaleAt] = left;
  if (!sparesBerried && femalesNow > nobody) scale(numbers, broods, broodBoxes, member, left / femalesNow);
  else if (berried > left) scale(numbers, broods, broodBoxes, member, left / berried);
}

/** Takes juveniles off every member, all it has at most. */
export function takeJuveniles({ numbers }: Draft, number: number): void {
  for (let member = 0; member < members; member++) {
    const was = juvenilesOf(numbers, member);
    const kept = was > number ? 1 - number / was : 0;
    scale(numbers, young + shrimpletBoxes, youngBoxes - shrimpletBoxes, member, kept);
  }
}

/** Adds saleable animals that were moved in, to every member; their sexes are drawn. */
export function addGrown({ numbers, tubId }: Draft, number: number, entryId: number): void {
  const stream = streamOf(tubId, entryId, purposes.moved);
  for (let member = 0; member < members; member++) {
    const lean = numbers[femaleLean * members + member] ?? 0;
    const expected = 0.5 + unevenSd * lean + (normalOf(bitsOf(stream, member)) * 0.5) / Math.sqrt(Math.max(1, number));
    const share = Math.min(1, Math.max(0, expected));
    numbers[females * members + member] = (numbers[females * members + member] ?? 0) + number * share;
    numbers[males * members + member] = (numbers[males * members + member] ?? 0) + number * (1 - share);
  }
}

/** Standard deviation of the share of females from tub to tub (assumption). */
const unevenSd = 0.12;

/** Adds juveniles that were moved in, to every member; how far they have grown is drawn. */
export function addJuveniles({ numbers, tubId }: Draft, number: number, entryId: number): void {
  const stream = streamOf(tubId, entryId, purposes.moved);
  const boxes = youngBoxes - shrimpletBoxes;
  for (let member = 0; member < members; member++) {
    const tilt = normalOf(bitsOf(stream, member));
    const weights = Array.from({ length: boxes }, (_, box) => Math.exp(tilt * ((2 * box) / (boxes - 1) - 1)));
    const sum = weights.reduce((total, weight) => total + weight, 0);
    weights.forEach((weight, box) => {
      const at = (young + shrimpletBoxes + box) * members + member;
      numbers[at] = (numbers[at] ?? 0) + (number * weight) / sum;
    });
  }
}
