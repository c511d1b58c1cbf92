import { allocateDay, type SpareTub } from '../../src/domain/index.ts';
import { cpuMs } from './cpuMs.ts';

/** Whole numbers from 0 up to under `below`, the same for the same seed (a linear congruential generator). */
function drawing(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((state / 2_147_483_648) * below);
  };
}

const seeds = [1, 2, 3, 4, 5, 6, 7, 8] as const;
const tubCount = 80;
const parcelCount = 25;

/** A day's parcels and the tubs of a business: orders of tens with extras, or of any size, and tubs that spare little or much. */
function dayOf(seed: number, lines: number, isTens: boolean, mostSpare: number) {
  const draw = drawing(seed);
  const tubs: SpareTub[] = Array.from({ length: tubCount }, (_, index) => {
    const spare = draw(mostSpare);
    const lineId = 1 + (index % lines);
    return {
      tubId: index,
      name: `A${index}`,
      rack: 'A',
      lineId,
      spare,
      saleable: spare + 10,
      netLitres: 16 + draw(30),
    };
  });
  const parcels = Array.from({ length: parcelCount }, (_, saleId) => ({
    saleId,
    demands: [{ lineId: 1 + draw(lines), number: isTens ? ([12, 23, 34][draw(3)] ?? 12) : 1 + draw(45) }],
  }));
  return { tubs, parcels };
}

/** Where to catch on a full day: the mean and the worst processor time of a day, over several made-up ones. */
export async function benchCatches(): Promise<void> {
  process.stdout.write(`\ncatches of ${parcelCount} parcels from ${tubCount} tubs: mean and worst\n`);
  for (const lines of [1, 3, 6]) {
    for (const isTens of [true, false]) {
      for (const mostSpare of [20, 90]) {
        const times: number[] = [];
        for (const seed of seeds) {
          const { tubs, parcels } = dayOf(seed, lines, isTens, mostSpare);
          times.push(await cpuMs(() => void allocateDay(parcels, tubs)));
        }
        const mean = times.reduce((sum, ms) => sum + ms, 0) / times.length;
        const name = `${lines} lines, ${isTens ? 'tens' : 'any size'}, up to ${mostSpare} spare`;
        process.stdout.write(
          `${name.padEnd(38)}${mean.toFixed(1).padStart(8)} ms${Math.max(...times)
            .toFixed(1)
            .padStart(8)} ms\n`,
        );
      }
    }
  }
}
