import { describe, expect, it } from 'vitest';
import { type Estimate, inferNitrate } from '../../../../src/domain/index.ts';
import { kitStepsMgL, type Tub, tubsOf } from './worlds.ts';

interface Tally {
  tubs: number;
  nowIn: number;
  riseIn: number;
  nowScore: number;
  riseScore: number;
}

const holds = ({ low, high }: Estimate, truth: number): boolean => low <= truth && truth <= high;

/**
 * Interval score of an 80 % interval: its width and ten times what the truth misses it by; lower is better.
 * Source: Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102: 359-378, equation 43 (from memory).
 */
function score({ low, high }: Estimate, truth: number, floor: number): number {
  const [from, to, at] = [low, high, truth].map((value) => Math.log(Math.max(0, value) + floor)) as [
    number,
    number,
    number,
  ];
  return to - from + 10 * Math.max(0, from - at) + 10 * Math.max(0, at - to);
}

function tallies(tubs: readonly Tub[]): Map<string, Tally> {
  const found = new Map<string, Tally>();
  for (const { world, events, nowDay, sourceMgL, nowMgL, risePerDay } of tubs) {
    const estimate = inferNitrate(events, nowDay, sourceMgL, kitStepsMgL);
    for (const name of ['all', ...Object.entries(world).map(([trait, value]) => `${trait} ${value}`)]) {
      const tally = found.get(name) ?? { tubs: 0, nowIn: 0, riseIn: 0, nowScore: 0, riseScore: 0 };
      found.set(name, tally);
      tally.tubs += 1;
      tally.nowIn += Number(holds(estimate.nowMgL, nowMgL));
      tally.riseIn += Number(holds(estimate.risePerDay, risePerDay));
      tally.nowScore += score(estimate.nowMgL, nowMgL, 1);
      tally.riseScore += score(estimate.risePerDay, risePerDay, 0.02);
    }
  }
  return found;
}

const percent = (part: number, whole: number): string => ((100 * part) / whole).toFixed(1).padStart(6);

function table(found: ReadonlyMap<string, Tally>): string {
  const rows = [...found].sort(([one], [other]) => one.localeCompare(other));
  const lines = rows.map(([name, { tubs, nowIn, riseIn, nowScore, riseScore }]) =>
    [
      name.padEnd(22),
      String(tubs).padStart(5),
      percent(nowIn, tubs),
      percent(riseIn, tubs),
      (nowScore / tubs).toFixed(2).padStart(7),
      (riseScore / tubs).toFixed(2).padStart(7),
    ].join(' '),
  );
  return ['80 % intervals: tubs, truth inside (N, rise) in %, interval score in logarithms (N, rise)', ...lines].join(
    '\n',
  );
}

describe('80 % intervals of nitrate and rise', () => {
  it('cover the truth in 74 to 86 % of 2,000 tub-histories, and in 70 to 90 % of each world', () => {
    const found = tallies(tubsOf(2000, 20_270_501));
    process.stdout.write(`${table(found)}\n`);
    const all = found.get('all');
    expect(all?.tubs).toBe(2000);
    expect(found.size).toBe(1 + 4 + 5 + 4 + 3 + 3 + 3 + 2);
    const outside = [...found].flatMap(([name, { tubs, nowIn, riseIn }]) => {
      const [from, to] = name === 'all' ? [0.74, 0.86] : [0.7, 0.9];
      return [nowIn / tubs, riseIn / tubs].every((share) => share >= from && share <= to) ? [] : [name];
    });
    expect(outside).toEqual([]);
  });
});
