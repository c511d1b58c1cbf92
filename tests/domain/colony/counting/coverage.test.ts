import { beforeAll, describe, expect, it } from 'vitest';
import { openRandom, type Random } from '../../../../seed/random.ts';
import { catchSums } from '../../../../src/domain/colony/counting/catchSums.ts';
import { removalQuantiles } from '../../../../src/domain/colony/counting/removalBelief.ts';
import { seberLeCren } from '../../../../src/domain/colony/counting/seberLeCren.ts';
import { passesEstimate } from '../../../../src/domain/index.ts';

const captures = [0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const numbers = [20, 50, 100, 200];
const tubsEach = 100;

interface Tally {
  tubs: number;
  declineless: number;
  weak: number;
  weakAndWrong: number;
  told: number;
  in80: number;
  normal80: number;
  in95: number;
  normal95: number;
}

const blank = (): Tally => ({
  ...{ tubs: 0, declineless: 0, weak: 0, weakAndWrong: 0, told: 0 },
  ...{ in80: 0, normal80: 0, in95: 0, normal95: 0 },
});

/** A tub of `number` animals netted out, each of those left caught with chance `capture` at each pass. */
function netted(number: number, capture: number, passes: number, random: Random): number[] {
  let left = number;
  return Array.from({ length: passes }, () => {
    let caught = 0;
    for (let animal = 0; animal < left; animal += 1) caught += Number(random.happens(capture));
    left -= caught;
    return caught;
  });
}

/** What came of the catches of one tub, as a tally of it alone. */
function judged(catches: readonly number[], number: number): Tally {
  const one = { ...blank(), tubs: 1 };
  const found = passesEstimate(catches);
  if (!found.ok) {
    const isWeak = found.fault.kind === 'weak-decline';
    if (!isWeak) return { ...one, declineless: 1 };
    const [first = 0, second = 0] = catches;
    const isWrong = catches.length === 2 && Math.abs(seberLeCren(first, second).number - number) > number / 2;
    return { ...one, weak: 1, weakAndWrong: Number(isWrong) };
  }
  const { low, high, caught, number: estimate, standardError } = found.value;
  const isNormal = (z: number): boolean =>
    number >= Math.max(caught, Math.floor(estimate - z * standardError)) &&
    number <= Math.ceil(estimate + z * standardError);
  const [low95 = Number.NaN, high95 = Number.NaN] = removalQuantiles(catchSums(catches), [0.025, 0.975]);
  return {
    ...one,
    told: 1,
    in80: Number(low <= number && number <= high),
    in95: Number(low95 <= number && number <= high95),
    normal80: Number(isNormal(1.2816)),
    normal95: Number(isNormal(1.96)),
  };
}

const sumOf = (one: Tally, other: Tally): Tally =>
  Object.fromEntries(
    Object.entries(one).map(([key, value]) => [key, value + other[key as keyof Tally]]),
  ) as unknown as Tally;

function tallies(): Map<string, Tally> {
  const random = openRandom(20_270_413);
  const found = new Map<string, Tally>();
  for (const passes of [2, 3, 4]) {
    for (const capture of captures) {
      for (const number of numbers) {
        const each = [`passes ${passes}`, `capture ${capture}`, `number ${number}`];
        const names = ['all', ...each, `passes ${passes} number ${number}`];
        for (let tub = 0; tub < tubsEach; tub += 1) {
          const one = judged(netted(number, capture, passes, random), number);
          for (const name of names) found.set(name, sumOf(found.get(name) ?? blank(), one));
        }
      }
    }
  }
  return found;
}

const percent = (part: number, whole: number): string => ((100 * part) / whole).toFixed(0).padStart(4);

function table(found: ReadonlyMap<string, Tally>): string {
  const rows = [...found].map(([name, each]) =>
    [
      name.padEnd(20),
      String(each.tubs).padStart(5),
      ...[each.declineless, each.weak].map((refused) => percent(refused, each.tubs)),
      ...[each.in80, each.normal80, each.in95, each.normal95].map((held) => percent(held, each.told)),
    ].join(' '),
  );
  return [
    'removal passes: tubs, refused (no decline, weak) in %, truth inside 80 % (ours, normal) and 95 % (ours, normal)',
    ...rows,
  ].join('\n');
}

describe('the range of removal passes, of tubs with 20 to 200 animals and 40 to 90 % caught at a pass', () => {
  let found: ReadonlyMap<string, Tally>;
  let all: Tally;
  beforeAll(() => {
    found = tallies();
    all = found.get('all') ?? blank();
    process.stdout.write(`${table(found)}\n`);
  });

  it('holds the truth at least as often as it says, in every kind of tub', () => {
    expect(all.tubs).toBe(3 * captures.length * numbers.length * tubsEach);
    expect(found.size).toBe(1 + 3 + captures.length + numbers.length + 12);
    for (const [name, { told, in80, in95 }] of found) {
      // Two standard errors of a share of so few tubs.
      const slack = (share: number): number => 2 * Math.sqrt((share * (1 - share)) / told);
      expect(in80 / told, name).toBeGreaterThanOrEqual(0.8 - slack(0.8));
      expect(in95 / told, name).toBeGreaterThanOrEqual(0.95 - slack(0.95));
    }
    expect(all.in80 / all.told).toBeLessThanOrEqual(0.95);
  });

  it('is better than the normal interval where animals are few', () => {
    for (const number of [20, 50]) {
      const { told, in95, normal95 } = found.get(`number ${number}`) ?? blank();
      expect(normal95 / told).toBeLessThan(0.92);
      expect(in95).toBeGreaterThan(normal95);
    }
  });

  it('refuses few tubs, and of two passes those whose number would often be wrong by half', () => {
    expect((all.weak + all.declineless) / all.tubs).toBeLessThan(0.15);
    const two = found.get('passes 2') ?? blank();
    expect(two.weakAndWrong / two.weak).toBeGreaterThan(0.33);
  });
});
