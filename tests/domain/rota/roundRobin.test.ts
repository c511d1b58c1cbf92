import { describe, expect, it } from 'vitest';
import { planWeek } from '../../../src/domain/index.ts';
import { measureRota, type RotaMeasure } from '../../support/rotaMeasure.ts';
import { from, rotaWorld, type WorldSize } from '../../support/rotaWorld.ts';
import { roundRobin } from '../../support/roundRobin.ts';

const days = 14;
const sizes: readonly WorldSize[] = [
  { tubs: 6, partners: 2, odd: false },
  { tubs: 12, partners: 2, odd: true },
  { tubs: 24, partners: 3, odd: true },
  { tubs: 40, partners: 2, odd: false },
  { tubs: 80, partners: 2, odd: true },
  { tubs: 80, partners: 4, odd: true },
];
const seeds = [1, 2, 3] as const;

interface Compared {
  readonly name: string;
  readonly plain: RotaMeasure;
  readonly planned: RotaMeasure;
  readonly gap: { readonly peakMinutes: number; readonly unfairMinutes: number };
}

function compare(seed: number, size: WorldSize): Compared {
  const { due, partners } = rotaWorld(seed, size);
  const plan = planWeek({ due, from, days, partners, done: [], told: [] });
  return {
    name: `${size.tubs} tubs, ${size.partners} partners${size.odd ? ', odd' : ''}`,
    plain: measureRota(roundRobin(due, from, days, partners), due, partners, { from, days }),
    planned: measureRota(plan.tasks, due, partners, { from, days }),
    gap: plan.gap,
  };
}

const cells = (...texts: (string | number)[]): string =>
  texts.map((text, nth) => (nth === 0 ? String(text).padEnd(25) : String(text).padStart(9))).join('');
const pair = ({ plain, planned }: Compared, of: keyof RotaMeasure): string[] =>
  [plain, planned].map((measure) => measure[of].toFixed(of === 'unfair' ? 1 : 0));

describe('the rota beside partners taking turns on the due days', () => {
  it('has no heavier day, is no less fair and breaks nothing, in any of these businesses', () => {
    const all = sizes.flatMap((size) => seeds.map((seed) => compare(seed, size)));
    const lines = all.map((one) =>
      cells(
        one.name,
        ...pair(one, 'peak'),
        one.gap.peakMinutes,
        ...pair(one, 'unfair'),
        one.gap.unfairMinutes.toFixed(1),
        ...pair(one, 'broken'),
      ),
    );
    const head = [
      cells('turns | planned, minutes', 'peak', '', 'gap', 'unfair', '', 'gap', 'broken', ''),
      cells('', ...['turns', 'planned', 'at most'], ...['turns', 'planned', 'at most'], ...['turns', 'planned']),
    ];
    process.stdout.write(`${[...head, ...lines].join('\n')}\n`);
    for (const { name, plain, planned, gap } of all) {
      expect(planned.peak, name).toBeLessThanOrEqual(plain.peak);
      expect(planned.unfair, name).toBeLessThanOrEqual(plain.unfair + 1e-9);
      expect(planned.broken, name).toBe(0);
      expect(gap.peakMinutes / planned.peak, name).toBeLessThanOrEqual(0.05);
      expect(gap.unfairMinutes, name).toBeLessThanOrEqual(1);
    }
    const sum = (of: keyof RotaMeasure, whose: 'plain' | 'planned'): number =>
      all.reduce((total, one) => total + one[whose][of], 0);
    expect(sum('peak', 'planned')).toBeLessThan(0.92 * sum('peak', 'plain'));
    expect(sum('unfair', 'planned')).toBeLessThan(0.05 * sum('unfair', 'plain'));
  });
});
