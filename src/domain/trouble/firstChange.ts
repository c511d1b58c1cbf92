import { type Jump, jumpOf, type MovedWater } from '../water/jump.ts';

/** Of the net volume within a day, whatever the reason. Common practice, no source: a bigger change is a second shock. */
export const mostSwappedADay = 0.25;

/** Why water is changed as first aid. */
export type FirstChangeReason =
  | ('ammonia' | 'nitrite' | 'poison')
  | ('some ammonia' | 'some nitrite' | 'untreated' | 'not known');

/** Why no more is changed than is. */
export type FirstChangeBound = 'a day' | 'changed today' | 'minerals';

/** How much each reason asks for, as a share of the net volume. 10 to 20 % where nothing is known; common practice, no source. */
const wanted: Readonly<Record<FirstChangeReason, number>> = {
  ammonia: mostSwappedADay,
  nitrite: mostSwappedADay,
  poison: mostSwappedADay,
  'some ammonia': 0.15,
  'some nitrite': 0.15,
  untreated: 0.2,
  'not known': 0.15,
};

/** What harms today, and the least that is any help against it, however far the minerals move. */
const harmful: readonly FirstChangeReason[] = ['ammonia', 'nitrite', 'poison'];
const leastAgainstHarm = 0.1;

export interface FirstChange {
  readonly why: FirstChangeReason;
  readonly litres: number;
  readonly fraction: number;
  readonly bound: FirstChangeBound | null;
}

/**
 * The change of first aid, in steps of 0.5 L, rounded down; null where what was changed within the last day leaves no room for one.
 *
 *   f ≤ 1 − (1 − 0.25)/(1 − s)        s: swapped within the last day already
 *
 * Where it would move TDS or GH too far at once, the first part of it (`jumpOf`), but not under 10 % against what harms today.
 *
 * @param swapped  share of the net volume swapped within the last day, 0 to under 1
 */
export function firstChange(
  why: FirstChangeReason,
  netLitres: number,
  swapped: number,
  water: { readonly tub: MovedWater; readonly source: MovedWater },
): FirstChange | null {
  const room = 1 - (1 - mostSwappedADay) / (1 - swapped);
  const most = Math.max(0, Math.min(wanted[why], room));
  if (most === 0) return null;
  const { parts, partFraction }: Jump = jumpOf(most, water.tub, water.source, 1);
  const inParts = harmful.includes(why) ? Math.max(partFraction, leastAgainstHarm) : partFraction;
  const fraction = Math.min(most, inParts);
  const litres = Math.floor(2 * fraction * netLitres + 1e-9) / 2;
  if (litres === 0) return null;
  return { why, litres, fraction: litres / netLitres, bound: boundOf(parts, most, wanted[why]) };
}

function boundOf(parts: number, most: number, asked: number): FirstChangeBound | null {
  if (parts > 1) return 'minerals';
  if (most < asked) return 'changed today';
  return asked === mostSwappedADay ? 'a day' : null;
}
