import { openRandom, type Random } from '../../../../seed/random.ts';
import type { TubEvent } from '../../../../src/domain/index.ts';

export const kitStepsMgL = [0, 5, 10, 20, 40, 80, 160];

/** What a simulated tub is like; each trait is a world of its own in the tables. */
export interface World {
  readonly readings: 'weekly' | 'fortnightly' | 'monthly' | 'irregular';
  readonly length: '1 reading' | '4 weeks' | '12 weeks' | '26 weeks' | '52 weeks';
  /** Noise of the eye, standard deviation of the logarithm. */
  readonly noise: number;
  readonly start: 'plateau' | 'source' | 'anywhere';
  readonly changes: 'weekly' | 'irregular' | 'none';
  /** Spread of the rise between tubs, standard deviation of the logarithm about 0.3 mg/L a day. */
  readonly riseSd: number;
  readonly drift: 'steady' | 'drifting';
}

export interface Tub {
  readonly world: World;
  readonly sourceMgL: number;
  readonly events: readonly TubEvent[];
  readonly nowDay: number;
  readonly nowMgL: number;
  readonly risePerDay: number;
}

/** The step that somebody takes a colour for. */
export function readStep(mgL: number, noise: number, random: Random, steps: readonly number[] = kitStepsMgL): number {
  const seen = mgL * Math.exp(noise * random.normal());
  return steps.reduce((best, step) => (Math.abs(step - seen) < Math.abs(best - seen) ? step : best));
}

const weeksOf: Record<World['length'], number> = {
  '1 reading': 0,
  '4 weeks': 4,
  '12 weeks': 12,
  '26 weeks': 26,
  '52 weeks': 52,
};

export const anyWorld = (random: Random): World => ({
  readings: random.pick(['weekly', 'fortnightly', 'monthly', 'irregular']),
  length: random.pick(['1 reading', '4 weeks', '12 weeks', '26 weeks', '52 weeks']),
  noise: random.pick([0, 0.05, 0.1, 0.15]),
  start: random.pick(['plateau', 'source', 'anywhere']),
  changes: random.pick(['weekly', 'irregular', 'none']),
  riseSd: random.pick([0.6, 0.8, 1]),
  drift: random.pick(['steady', 'drifting']),
});

function readingDays(world: World, days: number, random: Random): number[] {
  const gaps: Record<World['readings'], () => number> = {
    weekly: () => 7,
    fortnightly: () => 14,
    monthly: () => 28,
    irregular: () => (random.happens(0.15) ? random.between(30, 60) : random.between(3, 18)),
  };
  const found: number[] = [];
  for (let day = 0; day <= days; day += gaps[world.readings]()) found.push(day);
  return found;
}

function changesOf(world: World, days: number, fraction: number, random: Random): { day: number; fraction: number }[] {
  const found: { day: number; fraction: number }[] = [];
  if (world.changes === 'none') return found;
  const isWeekly = world.changes === 'weekly';
  for (let day = random.between(0, 7); day <= days; day += isWeekly ? 7 : random.between(3, 25)) {
    found.push({ day, fraction: isWeekly ? fraction : random.between(0.05, 0.3) });
  }
  return found;
}

/** One tub of the world: its logged history and the truth behind it. */
export function simulate(world: World, random: Random): Tub {
  const days = weeksOf[world.length] * 7 + random.between(0, 7);
  const sourceMgL = random.pick([0, 5, 5, 10, 20]);
  const fraction = random.between(0.1, 0.25);
  const base = 0.3 * Math.exp(world.riseSd * random.normal());
  const phase = random.between(0, 2 * Math.PI);
  const swing = world.drift === 'steady' ? 0 : 0.3;
  const riseAt = (day: number): number => base * Math.exp(swing * Math.sin((2 * Math.PI * day) / 240 + phase));
  const starts: Record<World['start'], () => number> = {
    plateau: () => sourceMgL + ((base * 7) / fraction) * random.between(0.5, 1.2),
    source: () => sourceMgL,
    anywhere: () => random.between(5, 100),
  };
  let mgL = starts[world.start]();
  let day = 0;
  const riseTo = (to: number): void => {
    mgL += riseAt((day + to) / 2) * (to - day);
    day = to;
  };
  const readings = readingDays(world, weeksOf[world.length] * 7, random).map((at) => ({ at, change: null }));
  const changes = changesOf(world, days, fraction, random).map((change) => ({ at: change.day, change }));
  const events: TubEvent[] = [];
  for (const { at, change } of [...readings, ...changes].sort((a, b) => a.at - b.at)) {
    riseTo(at);
    if (change === null) events.push({ of: 'reading', day: at, nitrateMgL: readStep(mgL, world.noise, random) });
    else {
      mgL = (1 - change.fraction) * mgL + change.fraction * sourceMgL;
      events.push({ of: 'change', day: at, fraction: change.fraction });
    }
  }
  riseTo(days);
  return { world, sourceMgL, events, nowDay: days, nowMgL: mgL, risePerDay: riseAt(days) };
}

export function tubsOf(count: number, seed: number, fixed: Partial<World> = {}): Tub[] {
  const random = openRandom(seed);
  return Array.from({ length: count }, () => simulate({ ...anyWorld(random), ...fixed }, random));
}
