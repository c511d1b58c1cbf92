import { describe, expect, it } from 'vitest';
import { streamOf } from '../../../../src/domain/colony/model/chance.ts';
import {
  broodBoxes,
  broods,
  females,
  males,
  rowCount,
  youngBoxes,
} from '../../../../src/domain/colony/model/layout.ts';
import { type DailyRates, ratesOf } from '../../../../src/domain/colony/model/rates.ts';
import { stepDay } from '../../../../src/domain/colony/model/stepDay.ts';
import { traits } from '../../../../src/domain/colony/model/traits.ts';

const members = 64;

/** A state of tubs as the books have them, with some animals in a row. */
function stateWith(animals: readonly (readonly [row: number, number: number])[]): Float32Array {
  const numbers = new Float32Array(rowCount * members);
  for (const { row, kind } of traits) numbers.fill(kind === 'factor' ? 1 : 0, row * members, (row + 1) * members);
  for (const [row, number] of animals) numbers.fill(number, row * members, (row + 1) * members);
  return numbers;
}

const meanOf = (numbers: Float32Array, first: number, rows = 1): number =>
  numbers.subarray(first * members, (first + rows) * members).reduce((sum, value) => sum + value, 0) / members;

function live(numbers: Float32Array, days: number, rates: DailyRates, netLitres = 20): Float32Array {
  for (let on = 0; on < days; on++) {
    stepDay(numbers, members, { rates, netLitres, days: 1, stream: streamOf(1, on, 1), wobble: 0, loggedDeaths: 0 });
  }
  return numbers;
}

const deathless = (tempC: number): DailyRates => ({
  ...ratesOf({ tempC, sdC: 0 }, 15),
  eggDeath: 0,
  shrimpletDeath: 0,
  juvenileDeath: 0,
  saleableDeath: 0,
  broodStart: 0,
});

describe('a day of a tub', () => {
  it('grows hatchlings to saleable in the time of the books, on average', () => {
    const rates = deathless(24);
    let [grownDays, before] = [0, 0];
    const numbers = stateWith([[0, 200]]);
    for (let on = 1; on <= 400; on++) {
      live(numbers, 1, rates, 10_000);
      const grown = meanOf(numbers, females, 2);
      grownDays += (grown - before) * on;
      before = grown;
    }
    expect(before).toBeGreaterThan(194);
    expect(before).toBeLessThan(206);
    // 75 days to 15 mm at 24 °C (`developmentDefaults`).
    expect(grownDays / before).toBeGreaterThan(73);
    expect(grownDays / before).toBeLessThan(78);
  });

  it('loses no animal and makes none where nobody dies or breeds', () => {
    const numbers = live(
      stateWith([
        [3, 5],
        [8, 5],
        [females, 12],
        [males, 8],
      ]),
      30,
      deathless(24),
    );
    expect(meanOf(numbers, 0, youngBoxes) + meanOf(numbers, females, 2)).toBeGreaterThan(29.3);
    expect(meanOf(numbers, 0, youngBoxes) + meanOf(numbers, females, 2)).toBeLessThan(30.7);
  });

  it('hatches broods after the days of the books, as many young as a brood has', () => {
    const rates = deathless(24);
    const numbers = live(
      stateWith([
        [females, 20],
        [broods, 10],
      ]),
      120,
      rates,
    );
    expect(meanOf(numbers, broods, broodBoxes)).toBeLessThan(0.5);
    const young = meanOf(numbers, 0, youngBoxes) + meanOf(numbers, females, 2) - 20;
    expect(young / (10 * rates.broodYoung)).toBeGreaterThan(0.9);
    expect(young / (10 * rates.broodYoung)).toBeLessThan(1.1);
  });

  it('grows more in warm water than in cool, more in room than in a crowd, and starts no brood in the cold', () => {
    const grownBy = (tempC: number, netLitres: number): number =>
      meanOf(live(stateWith([[0, 100]]), 75, deathless(tempC), netLitres), females, 2);
    expect(grownBy(24, 60)).toBeGreaterThan(2 * grownBy(20, 60));
    expect(grownBy(24, 60)).toBeGreaterThan(1.5 * grownBy(24, 3));
    const carrying = (tempC: number): number =>
      meanOf(live(stateWith([[females, 20]]), 30, ratesOf({ tempC, sdC: 0 }, 15)), broods, broodBoxes);
    expect(carrying(15)).toBeLessThan(0.01);
    expect(carrying(24)).toBeGreaterThan(4);
  });

  it('takes deaths that were logged for those that it expects', () => {
    const rates = ratesOf({ tempC: 22, sdC: 0 }, 15);
    const left = (loggedDeaths: number): number => {
      const numbers = stateWith([[males, 60]]);
      for (let on = 0; on < 30; on++) {
        stepDay(numbers, members, {
          rates,
          netLitres: 40,
          days: 1,
          stream: streamOf(1, on, 1),
          wobble: 0,
          loggedDeaths,
        });
      }
      return meanOf(numbers, females, 2);
    };
    expect(left(0)).toBeLessThan(57);
    expect(left(10)).toBeCloseTo(60, 0);
  });

  it('sways about the same mean, whatever the wobble', () => {
    const rates = deathless(22);
    const spreadBy = (wobble: number): number[] => {
      const numbers = stateWith([[males, 50]]);
      for (let on = 0; on < 50; on++) {
        stepDay(numbers, members, {
          rates,
          netLitres: 40,
          days: 1,
          stream: streamOf(1, on, 1),
          wobble,
          loggedDeaths: 0,
        });
      }
      return Array.from({ length: members }, (_, member) => numbers[males * members + member] ?? 0);
    };
    expect(Math.max(...spreadBy(0)) - Math.min(...spreadBy(0))).toBe(0);
    const swayed = spreadBy(0.01);
    expect(Math.max(...swayed) - Math.min(...swayed)).toBeGreaterThan(5);
    expect(Math.abs(swayed.reduce((sum, number) => sum + number, 0) / members - 50)).toBeLessThan(2.5);
  });
});
