import { type Chain, isFixed } from './chain.ts';
import { commonStep } from './commonStep.ts';
import { forcedMinutes, runAt } from './forced.ts';

/** Chains with more paths than this are not looked through, nor more steps of the search than that. */
const mostPaths = 200;
const mostSteps = 6_000;

type Path = readonly number[];

/** A lighter laying, if there is one, and whether there is none lighter still. */
export interface PeakFound {
  readonly paths: readonly Path[] | null;
  readonly isComplete: boolean;
}

/**
 * Looks through the layings for one whose heaviest day is lighter than `peakMinutes`: those with no choice first, then the longest chains; it
 * leaves a laying as soon as a day is too heavy, or a run of days would be with what must still come to lie in it. Ends after a fixed number
 * of steps, so that the same question has the same answer on any machine.
 */
export function leastPeak(chains: readonly Chain[], days: number, peakMinutes: number): PeakFound {
  const order = searchOrder(chains);
  const paths = order.map((index) => pathsOf(chains[index]));
  if (paths.some((of) => of === null)) return { paths: null, isComplete: false };
  const minutes = order.map((index) => chains[index]?.minutes ?? 0);
  const rest = restOf(chains, order, days);
  const step = commonStep(minutes) ?? 2e-9;
  const load = new Float64Array(days);
  const chosen: Path[] = [];
  let best: Path[] | null = null;
  let below = peakMinutes - step + 1e-9;
  let steps = 0;

  const add = (path: Path, more: number): void => {
    for (const at of path) load[at] = (load[at] ?? 0) + more;
  };
  const search = (depth: number): void => {
    if (depth === order.length) {
      best = [...chosen];
      below = Math.max(0, ...load) - step + 1e-9;
      return;
    }
    const more = minutes[depth] ?? 0;
    for (const path of lightestFirst(paths[depth] ?? [], load)) {
      steps += 1;
      if (steps > mostSteps) return;
      if (path.some((at) => (load[at] ?? 0) + more > below)) continue;
      add(path, more);
      if (fits(load, rest[depth + 1], below)) {
        chosen.push(path);
        search(depth + 1);
        chosen.pop();
      }
      add(path, -more);
    }
  };
  search(0);
  const found: Path[] | null = best;
  return { paths: found === null ? null : inPlace(found, order), isComplete: steps <= mostSteps };
}

/** Paths by how heavy their days are on average. */
function lightestFirst(paths: readonly Path[], load: Float64Array): readonly Path[] {
  if (paths.length < 2) return paths;
  const heavy = paths.map((path) => ({ path, mean: path.reduce((sum, at) => sum + (load[at] ?? 0), 0) / path.length }));
  return heavy.sort((a, b) => a.mean - b.mean).map(({ path }) => path);
}

/** Those with no choice first, then the longest; of the same minutes, those of the same days side by side. */
function searchOrder(chains: readonly Chain[]): number[] {
  const ranked = chains.map((chain, index) => ({ chain, index, isFree: Number(!isFixed(chain)) }));
  const begins = ({ starts }: Chain): number => starts[0] ?? 0;
  ranked.sort(
    (a, b) =>
      a.isFree - b.isFree ||
      b.chain.minutes - a.chain.minutes ||
      a.chain.starts.length - b.chain.starts.length ||
      begins(a.chain) - begins(b.chain) ||
      a.index - b.index,
  );
  return ranked.map(({ index }) => index);
}

/** By how far the search is, what the chains that are still to come cannot but do within each run of days, minutes. */
function restOf(chains: readonly Chain[], order: readonly number[], days: number): Float64Array[] {
  const rest = [new Float64Array(days * days)];
  for (const index of [...order].reverse()) {
    const chain = chains[index];
    const before = rest[0] ?? new Float64Array(days * days);
    const own = chain === undefined ? before : forcedMinutes(chain, days);
    rest.unshift(before.map((minutes, run) => minutes + (own[run] ?? 0)));
  }
  return rest;
}

/** Whether every run of days can hold what lies in it and what must still come, no day over `most`. */
function fits(load: Float64Array, rest: Float64Array | undefined, most: number): boolean {
  for (let first = 0; first < load.length; first++) {
    let sum = 0;
    for (let last = first; last < load.length; last++) {
      sum += load[last] ?? 0;
      if (sum + (rest?.[runAt(first, last, load.length)] ?? 0) > most * (last - first + 1) + 1e-9) return false;
    }
  }
  return true;
}

function inPlace(found: readonly Path[], order: readonly number[]): Path[] {
  const paths: Path[] = [];
  for (const [depth, index] of order.entries()) paths[index] = found[depth] ?? [];
  return paths;
}

/** Every path of a chain; null: there are too many. */
function pathsOf(chain: Chain | undefined): number[][] | null {
  const all: number[][] = [];
  const walk = (at: number, before: Path): void => {
    if (all.length > mostPaths) return;
    const path = [...before, at];
    const next = chain?.next[at] ?? [];
    if (next.length === 0) all.push(path);
    for (const then of next) walk(then, path);
  };
  for (const at of chain?.starts ?? []) walk(at, []);
  return all.length > mostPaths ? null : all;
}
