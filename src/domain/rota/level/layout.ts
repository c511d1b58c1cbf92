import { type Chain, cheapestPath, isFixed } from './chain.ts';

/** What it costs a chain, beside the day's minutes, to stand on a day; 0 and up. */
export type Staying = (index: number, at: number) => number;

const free: Staying = () => 0;

/** Each minute over the peak that is aimed at weighs more than any evenness can. */
const overWeight = 1e6;
/** Rounds in which chains look for cheaper days. Each makes the sum of all costs smaller, so that they end by themselves, and far sooner. */
const mostRounds = 60;
/** By how much days must be cheaper to be taken; less is rounding. */
const least = 1e-6;

/**
 * Chains laid on days, and the moves that make a laying better. A day costs its minutes squared over who is there, so that days grow even,
 * and far more for whatever goes over a peak that is aimed at.
 *
 * @param capacity  the part of all partners' shares that is there, over 0 to 1, by day
 */
export function openLayout(chains: readonly Chain[], capacity: readonly number[]) {
  const minutes = new Float64Array(capacity.length);
  const paths: (readonly number[])[] = chains.map(() => []);
  const movable = chains.flatMap((chain, index) => (isFixed(chain) ? [] : [index]));

  const take = (index: number, path: readonly number[], sign: 1 | -1): void => {
    const more = sign * (chains[index]?.minutes ?? 0);
    for (const at of path) minutes[at] = (minutes[at] ?? 0) + more;
  };
  const lay = (index: number, path: readonly number[]): void => {
    take(index, paths[index] ?? [], -1);
    take(index, path, 1);
    paths[index] = path;
  };
  const peak = (): number => Math.max(0, ...minutes);

  /** What it costs to add `more` minutes to a day. */
  const adding = (at: number, more: number, aim: number): number => {
    const now = minutes[at] ?? 0;
    const even = (2 * now * more + more * more) / (capacity[at] ?? 1);
    const over = Math.max(0, now + more - aim);
    if (over <= 1e-9) return even;
    const before = Math.max(0, now - aim);
    return even + overWeight * (over - before) * (1 + over + before);
  };

  /** Lays a chain on its cheapest days, all other chains as they are; by how much cheaper that is than before (0: it stays). */
  const improve = (index: number, aim: number, staying: Staying): number => {
    const chain = chains[index];
    const old = paths[index];
    if (chain === undefined || old === undefined) return 0;
    take(index, old, -1);
    const cost = (at: number): number => adding(at, chain.minutes, aim) + staying(index, at);
    const path = cheapestPath(chain, cost);
    const sum = (days: readonly number[]): number => days.reduce((total, at) => total + cost(at), 0);
    const gain = old.length === 0 ? 0 : sum(old) - sum(path);
    const isTaken = old.length === 0 || gain > least;
    take(index, isTaken ? path : old, 1);
    if (isTaken) paths[index] = path;
    return isTaken ? gain : 0;
  };

  /** Each chain in turn takes cheaper days, until none finds any. */
  const ease = (aim: number, staying: Staying = free): void => {
    for (let round = 0; round < mostRounds; round++) {
      let isBetter = false;
      for (const index of movable) if (improve(index, aim, staying) > 0) isBetter = true;
      if (!isBetter) return;
    }
  };

  /** Chain by chain of the days over `aim`: gives one of its days up if another chain can make room; whether any did. */
  const easePairs = (aim: number): boolean => {
    let isBetter = false;
    for (const index of movable) {
      const over = (paths[index] ?? []).find((at) => (minutes[at] ?? 0) > aim + least);
      if (over !== undefined && makeRoom(index, over, aim)) isBetter = true;
    }
    return isBetter;
  };

  const makeRoom = (index: number, without: number, aim: number): boolean => {
    const chain = chains[index];
    const old = paths[index];
    if (chain === undefined || old === undefined) return false;
    const costOf = (path: readonly number[]): number =>
      path.reduce((sum, at) => sum + adding(at, chain.minutes, aim), 0);
    take(index, old, -1);
    const before = costOf(old);
    const other = cheapestPath(chain, (at) => (at === without ? Number.MAX_VALUE : adding(at, chain.minutes, aim)));
    const loss = costOf(other) - before;
    take(index, other, 1);
    paths[index] = other;
    if (!other.includes(without)) {
      const touched = new Set(other.filter((at) => !old.includes(at)));
      for (const mate of movable) {
        const own = paths[mate] ?? [];
        if (mate === index || !own.some((at) => touched.has(at))) continue;
        const gain = improve(mate, aim, free);
        if (gain > loss + least) return true;
        lay(mate, own);
      }
    }
    lay(index, old);
    return false;
  };

  return { paths, minutes, peak, lay, improve, ease, easePairs };
}
