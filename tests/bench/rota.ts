import { placeKey, placeOf, planWeek, type RotaPlan, type ToldTask } from '../../src/domain/index.ts';
import { measureRota } from '../support/rotaMeasure.ts';
import { from, rotaWorld, type WorldSize } from '../support/rotaWorld.ts';
import { roundRobin } from '../support/roundRobin.ts';
import { cpuMs } from './cpuMs.ts';

const days = 14;
const seeds = [1, 2, 3, 4, 5] as const;
const sizes: readonly WorldSize[] = [
  { tubs: 10, partners: 2, odd: false },
  { tubs: 30, partners: 2, odd: true },
  { tubs: 80, partners: 2, odd: true },
  { tubs: 80, partners: 3, odd: true },
  { tubs: 80, partners: 4, odd: true },
];

const toldOf = ({ tasks }: RotaPlan): ToldTask[] =>
  tasks.map(({ due, on, userId }) => ({ key: placeKey(placeOf(due.chore, due.target)), on, userId }));
const row = (first: string, ...texts: string[]): void => {
  process.stdout.write(`${first.padEnd(22)}${texts.map((text) => text.padStart(14)).join('')}\n`);
};

/**
 * The rota of a fortnight: processor time of a plan made anew and of one that was told before, as a multiple of partners taking turns on the
 * due days, and how good both are, over several made-up businesses of a size.
 */
export async function benchRota(): Promise<void> {
  process.stdout.write('\n');
  row('rota of 14 days', 'anew', 'told before', 'turns', 'anew / turns', 'peak, min', 'unfair, min', 'at best');
  for (const size of sizes) {
    const worlds = seeds.map((seed) => rotaWorld(seed, size));
    const plans = worlds.map((world) => planWeek({ ...world, from, days, done: [], told: [] }));
    let turn = 0;
    const next = (): number => turn++ % worlds.length;
    const anew = await cpuMs(() => {
      const at = next();
      planWeek({ ...(worlds[at] ?? rotaWorld(1, size)), from, days, done: [], told: [] });
    });
    const told = await cpuMs(() => {
      const at = next();
      const plan = plans[at];
      planWeek({
        ...(worlds[at] ?? rotaWorld(1, size)),
        from,
        days,
        done: [],
        told: plan === undefined ? [] : toldOf(plan),
      });
    });
    const turns = await cpuMs(() => {
      const { due, partners } = worlds[next()] ?? rotaWorld(1, size);
      roundRobin(due, from, days, partners);
    });
    const measured = worlds.map(({ due, partners }, at) => ({
      planned: measureRota(plans[at]?.tasks ?? [], due, partners, { from, days }),
      taken: measureRota(roundRobin(due, from, days, partners), due, partners, { from, days }),
    }));
    const most = (of: (one: (typeof measured)[number]) => number): number => Math.max(...measured.map(of));
    row(
      `${size.tubs} tubs, ${size.partners} partners`,
      ...[anew, told, turns].map((ms) => `${ms.toFixed(1)} ms`),
      (anew / turns).toFixed(0),
      `${most(({ planned }) => planned.peak)} / ${most(({ taken }) => taken.peak)}`,
      `${most(({ planned }) => planned.unfair).toFixed(1)} / ${most(({ taken }) => taken.unfair).toFixed(0)}`,
      `${plans.filter(({ gap }) => gap.peakMinutes === 0).length} of ${plans.length}`,
    );
  }
}
