import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openRandom, type Random } from '../../../../seed/random.ts';
import { studentT } from '../../../../src/domain/colony/counting/studentT.ts';
import { type Depletion, type LeslieOptions, leslieDepletion, type SeasonCatch } from '../../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const each = (caught: readonly number[], effort = 1): SeasonCatch[] =>
  caught.map((number) => ({ caught: number, effort }));

function depletion(catches: readonly SeasonCatch[], options?: LeslieOptions): Depletion {
  const found = leslieDepletion(catches, options);
  if (!found.ok) throw new Error(found.fault.kind);
  return found.value;
}

describe("Leslie's depletion", () => {
  it('finds the number that halves at each catch, without doubt', () => {
    const exact = depletion(each([64, 32, 16, 8, 4]));
    expect(exact.number).toBeCloseTo(128, 9);
    expect(exact.catchability).toBeCloseTo(0.5, 9);
    expect(exact).toMatchObject({ caught: 124, freedom: 3 });
    expect(exact.low).toBeCloseTo(128, 6);
    expect(exact.high).toBeCloseTo(128, 6);
  });

  it('takes the effort out: twice the nettings, twice the catch', () => {
    const uneven = depletion([
      { caught: 64, effort: 2 },
      { caught: 24, effort: 1 },
      { caught: 36, effort: 2 },
    ]);
    const rates = depletion([
      { caught: 64, effort: 200 },
      { caught: 24, effort: 100 },
      { caught: 36, effort: 200 },
    ]);
    expect(rates.number).toBeCloseTo(uneven.number, 9);
    expect(rates.catchability).toBeCloseTo(uneven.catchability / 100, 9);
  });

  it("with Ricker's half of each catch gives a larger number where the catch falls evenly", () => {
    const catches = each([60, 41, 33, 20, 15, 11]);
    expect(depletion(catches, { ricker: true }).number).toBeGreaterThan(depletion(catches).number);
  });

  it('has an interval that widens with its level and is never below the catch', () => {
    const season = fc.array(fc.record({ caught: fc.nat(80), effort: fc.integer({ min: 1, max: 5 }) }), {
      minLength: 3,
      maxLength: 12,
    });
    fc.assert(
      fc.property(season, fc.boolean(), (catches, ricker) => {
        const [wide, narrow] = [0.95, 0.8].map((level) => leslieDepletion(catches, { ricker, level }));
        if (wide?.ok !== true || narrow?.ok !== true) return;
        const { low, high, caught, number } = narrow.value;
        expect(low).toBeGreaterThanOrEqual(caught);
        expect(high).toBeGreaterThanOrEqual(low);
        expect(Math.max(caught, number)).toBeGreaterThanOrEqual(low - 1e-9 * number);
        expect(Math.max(caught, number)).toBeLessThanOrEqual(high + 1e-9 * number);
        expect(wide.value.low).toBeLessThanOrEqual(low + 1e-9 * low);
        expect(wide.value.high).toBeGreaterThanOrEqual(high - 1e-9 * high);
      }),
      { numRuns: 2000 },
    );
  });

  it.each([
    [[], 'too-few-catches'],
    [[40, 20], 'too-few-catches'],
    [[0, 0, 0], 'nothing-caught'],
    [[0, 0, 9], 'no-decline'],
    [[20, 20, 20, 20], 'no-decline'],
    [[10, 20, 30], 'no-decline'],
    [[30, 12, 25, 18], 'weak-decline'],
  ] as const)('of %j is refused: %s', (caught, kind) => {
    const out = caught.reduce((sum: number, number) => sum + number, 0);
    expect(leslieDepletion(each(caught))).toEqual({ ok: false, fault: { kind, caught: out } });
  });

  it.each([[{ caught: -1, effort: 1 }], [{ caught: 1.5, effort: 1 }], [{ caught: 1, effort: 0 }]])(
    'of %j is a bug',
    (wrong) => {
      expect(() => leslieDepletion([...each([9, 5, 2]), wrong])).toThrow(RangeError);
    },
  );
});

describe('the interval of a depletion', () => {
  it('holds the truth about as often as it says where half is caught and days differ, and the symmetric one more seldom', () => {
    const random = openRandom(20_270_414);
    const tally = { told: 0, fieller: 0, symmetric: 0, refused: 0 };
    for (let season = 0; season < 600; season += 1) {
      const number = random.pick([200, 400, 800]);
      const caught = seasonOf(number, random);
      const found = leslieDepletion(each(caught), { level: 0.95 });
      if (!found.ok) {
        tally.refused += 1;
        continue;
      }
      const { low, high, standardError, freedom, number: estimate } = found.value;
      const half = studentT(0.95, freedom) * standardError;
      tally.told += 1;
      tally.fieller += Number(low <= number && number <= high);
      tally.symmetric += Number(estimate - half <= number && number <= estimate + half);
    }
    const share = (part: number): number => part / tally.told;
    process.stdout.write(
      `depletion: truth inside 95 %, Fieller ${share(tally.fieller).toFixed(2)}, symmetric ${share(tally.symmetric).toFixed(2)}, refused ${tally.refused} of 600\n`,
    );
    expect(share(tally.fieller)).toBeGreaterThan(0.92);
    expect(share(tally.symmetric)).toBeLessThan(0.88);
    expect(tally.refused).toBeLessThan(300);
  });
});

/** Six to twelve days that take 40 to 70 % of the animals, some days more easily than others. */
function seasonOf(number: number, random: Random): number[] {
  const days = random.whole(6, 12);
  const usual = 1 - (1 - random.between(0.4, 0.7)) ** (1 / days);
  let left = number;
  return Array.from({ length: days }, () => {
    const share = Math.min(0.9, usual * Math.exp(0.2 * random.normal()));
    let out = 0;
    for (let animal = 0; animal < left; animal += 1) out += Number(random.happens(share));
    left -= out;
    return out;
  });
}
