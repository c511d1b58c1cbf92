import fc from 'fast-check';
import { type Finding, type Played, play } from './play.ts';
import { anyStep, type Step } from './steps.ts';
import type { World } from './world.ts';

/** One kind of fault with the shortest way to it that was found. */
export interface Fault extends Finding {
  readonly steps: readonly Step[];
  readonly seed: number;
}

export interface SearchOptions {
  readonly seed: number;
  /** How many businesses are acted on; each sees up to `stepsEach` steps. */
  readonly runs: number;
  readonly stepsEach: number;
  /** No new run begins after this many milliseconds. */
  readonly withinMs?: number;
  readonly onPlayed?: (played: Played) => void;
}

/** The same fault, whatever was typed and counted. */
const kindOf = ({ where, what }: Finding): string =>
  `${where}: ${what
    .replace(/".*/su, '')
    .replace(/\d+/g, '#')
    .replace(/(characters|lost its way):.*/su, '')
    .slice(0, 120)}`;

/** Has people do anything at all to fresh copies of a business, and gives each kind of fault that showed once. */
export async function search(fresh: () => World, options: SearchOptions): Promise<Fault[]> {
  const { seed, runs, stepsEach, withinMs = Number.POSITIVE_INFINITY, onPlayed } = options;
  const faults = new Map<string, Fault>();
  const until = performance.now() + withinMs;
  for (let run = 0; run < runs && performance.now() < until; run += 1) {
    const [steps = []] = fc.sample(manySteps(stepsEach), { seed: seed + run, numRuns: 1 });
    for (const finding of await inCopy(fresh, steps, onPlayed)) {
      const kind = kindOf(finding);
      if (!faults.has(kind))
        faults.set(kind, { ...finding, seed: seed + run, steps: await shortened(fresh, steps, kind) });
    }
  }
  return [...faults.values()];
}

const manySteps = (most: number): fc.Arbitrary<Step[]> =>
  fc.array(anyStep, { minLength: most, maxLength: most, size: 'max' });

async function inCopy(
  fresh: () => World,
  steps: readonly Step[],
  onPlayed?: (played: Played) => void,
): Promise<Finding[]> {
  const world = fresh();
  try {
    return await play(world, steps, onPlayed);
  } finally {
    world.close();
  }
}

/** Leaves out every step that the fault does not need, halves first. */
async function shortened(fresh: () => World, steps: readonly Step[], kind: string): Promise<Step[]> {
  let kept = [...steps];
  for (let size = Math.ceil(kept.length / 2); ; size = Math.ceil(size / 2)) {
    for (let from = kept.length - size; from > -size; from -= size) {
      const fewer = kept.filter((_, index) => index < from || index >= from + size);
      const findings = await inCopy(fresh, fewer);
      if (findings.some((finding) => kindOf(finding) === kind)) kept = fewer;
    }
    if (size === 1) return kept;
  }
}
