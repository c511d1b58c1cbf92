import { openRandom, type Random } from '../../../../seed/random.ts';
import { afterChange, perNitrogen, type TubEvent } from '../../../../src/domain/index.ts';
import { kitStepsMgL, readStep } from './worlds.ts';

export const sourceMgL = 5;
const eyeNoise = 0.05;

export type SeededKind = 'unlogged-change' | 'double-change' | 'change-not-made' | 'misread' | 'nitrogen' | 'jump';

/** A tub read weekly until the last reading, which one thing that nobody logged has put out of line. */
export interface SeededHistory {
  readonly events: readonly TubEvent[];
  readonly kind: SeededKind;
  /** Its size: fraction, mg/L added, the step to be expected, or nitrate as such. */
  readonly size: number;
}

const placeOf = (mgL: number): number =>
  kitStepsMgL.reduce(
    (best, step, index) => (Math.abs(step - mgL) < Math.abs((kitStepsMgL[best] ?? 0) - mgL) ? index : best),
    0,
  );

/** A well-known tub that stands near the middle of a step, and is changed as much as it rises. */
function steadyTub(random: Random, levelMgL: number, weeks: number): { events: TubEvent[]; mgL: number; day: number } {
  const fraction = random.between(0.1, 0.2);
  const risePerWeek = ((levelMgL - sourceMgL) * fraction) / (1 - fraction / 2);
  let mgL = levelMgL - risePerWeek / 2;
  const events: TubEvent[] = [];
  for (let week = 0; week < weeks; week++) {
    events.push({ of: 'change', day: week * 7, fraction });
    events.push({ of: 'reading', day: week * 7 + 3.5, nitrateMgL: readStep(mgL + risePerWeek / 2, eyeNoise, random) });
    mgL = afterChange(mgL + risePerWeek, fraction, sourceMgL);
  }
  return { events, mgL: mgL + risePerWeek / 2, day: weeks * 7 + 3.5 };
}

/**
 * A tub that is never changed and has crossed a step lately, so that its level is known better than to a step. A tub that reads the same
 * for months may stand near an edge: there one step off is no contradiction.
 */
function risingTub(random: Random, levelMgL: number, weeks: number): { events: TubEvent[]; mgL: number; day: number } {
  const risePerWeek = (levelMgL - sourceMgL / 2) / weeks;
  const events = Array.from({ length: weeks }, (_, week): TubEvent => {
    const mgL = sourceMgL / 2 + risePerWeek * week;
    return { of: 'reading', day: week * 7, nitrateMgL: readStep(mgL, eyeNoise, random) };
  });
  return { events, mgL: levelMgL, day: weeks * 7 };
}

/** The last act of each kind: nitrate that is read, and the size of what happened. */
function seed(kind: SeededKind, random: Random, mgL: number): { typed: number; size: number; extra: number } | null {
  const read = (level: number): number => readStep(level, eyeNoise, random);
  const steps = (level: number, typed: number): number => Math.abs(placeOf(level) - placeOf(typed));
  const expected = placeOf(mgL);
  if (kind === 'misread') {
    const typed = kitStepsMgL[expected + (random.happens(0.5) ? 1 : -1)];
    return typed === undefined ? null : { typed, size: kitStepsMgL[expected] ?? 0, extra: 0 };
  }
  if (kind === 'nitrogen') {
    const nitrateMgL = kitStepsMgL[expected] ?? 0;
    return { typed: Math.round((10 * nitrateMgL) / perNitrogen.nitrate) / 10, size: nitrateMgL, extra: 0 };
  }
  const size = kind === 'jump' ? random.between(20, 100) : random.between(0.55, 0.85);
  const changed = afterChange(mgL, size, sourceMgL);
  const outcome = {
    'unlogged-change': { level: changed, foreseen: mgL, extra: 0 },
    'double-change': { level: afterChange(changed, size, sourceMgL), foreseen: changed, extra: size },
    'change-not-made': { level: mgL, foreseen: changed, extra: size },
    jump: { level: mgL + size, foreseen: mgL, extra: 0 },
  }[kind];
  const typed = read(outcome.level);
  return steps(outcome.foreseen, typed) < 2 ? null : { typed, size, extra: outcome.extra };
}

/** Histories whose last reading is off by at least two steps, or by something that a well-known tub gives away. */
export function seededHistories(kind: SeededKind, count: number, withSeed: number): SeededHistory[] {
  const random = openRandom(withSeed);
  const found: SeededHistory[] = [];
  while (found.length < count) {
    const level = random.pick([10, 20, 40, 80]) * random.between(0.95, 1.15);
    const tub = kind === 'misread' ? risingTub : steadyTub;
    const { events, mgL, day } = tub(random, level, random.whole(10, 16));
    const seeded = seed(kind, random, mgL);
    if (seeded === null) continue;
    if (seeded.extra > 0) events.push({ of: 'change', day: day - 0.5, fraction: seeded.extra });
    found.push({ events: [...events, { of: 'reading', day, nitrateMgL: seeded.typed }], kind, size: seeded.size });
  }
  return found;
}
