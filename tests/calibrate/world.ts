import { openRandom } from '../../seed/random.ts';

/** How a couple counts. */
export const habits = [
  'full monthly',
  'full quarterly',
  'full half-yearly, dish',
  'full, dish, glance',
  'dish fortnightly',
  'glance fortnightly',
  'full yearly',
] as const;
export type Habit = (typeof habits)[number];

/** When they sell. */
export const trades = ['steady', 'heavy spring', 'closed in winter'] as const;
export type Trade = (typeof trades)[number];

/** What the animals are: followed one by one (animals.ts), or numbers that come and go (pool.ts). Neither shares a line with the model. */
export const makes = ['animals', 'numbers'] as const;
export type Make = (typeof makes)[number];

/** One simulated business: a line of tubs. All else about it is drawn from its seed. */
export interface World {
  readonly seed: number;
  readonly habit: Habit;
  readonly trade: Trade;
  readonly make: Make;
  readonly tubs: number;
  /** Whether the room's temperature over the year is known, or only supposed. */
  readonly thermometer: boolean;
  /** Days that are played. */
  readonly days: number;
}

/** Worlds with every habit in turn, and all else drawn. */
export function worldsOf(count: number, seed: number, tubs: readonly [number, ...number[]], days: number): World[] {
  const random = openRandom(seed);
  return Array.from({ length: count }, (_, nth) => ({
    seed: seed + nth,
    habit: habits[nth % habits.length] ?? 'full monthly',
    trade: random.pick(trades),
    make: random.happens(0.75) ? 'animals' : 'numbers',
    tubs: random.pick(tubs),
    thermometer: random.happens(0.6),
    days,
  }));
}
