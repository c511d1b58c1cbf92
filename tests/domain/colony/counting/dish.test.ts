import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openRandom } from '../../../../seed/random.ts';
import {
  asTubPrior,
  type CountMethod,
  type DishEstimate,
  type DishPair,
  type DishRatio,
  dayMs,
  dishEstimate,
  dishPairs,
  dishPrior,
  dishRatio,
  type Instant,
  plusMs,
  ratioEstimate,
  type StockCount,
  type StockStep,
} from '../../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const pair = (seen: number, full: number): DishPair => ({ seen, full });

function estimate(belief: DishRatio, seen: number): DishEstimate {
  const found = dishEstimate(belief, seen);
  if (!found.ok) throw new Error(found.fault.kind);
  return found.value;
}

describe('the ratio of full counts to dish counts', () => {
  it('is that of the sums, with the variance of Cochran, worked by hand', () => {
    // R = 90/30 = 3; off: 31−30, 29−30, 30−30; Σ = 2; Var = 2/(2·3·10²).
    const found = ratioEstimate([pair(10, 31), pair(10, 29), pair(10, 30)]);
    expect(found).toEqual({ ratio: 3, variance: 2 / 600, meanSeen: 10 });
    expect(ratioEstimate([pair(10, 30)])).toEqual({ ratio: 3, variance: null, meanSeen: 10 });
  });

  it('is none where nothing was seen or nothing was there', () => {
    for (const pairs of [[], [pair(0, 30)], [pair(4, 0)]]) expect(ratioEstimate(pairs)).toBeNull();
  });

  it('is the prior without a pair, and comes nearer to the pairs as they grow in number', () => {
    expect(dishRatio([])).toEqual(dishPrior);
    expect(dishRatio([pair(4, 0)])).toEqual(dishPrior);
    const told = (number: number): DishRatio => dishRatio(Array.from({ length: number }, () => pair(15, 75)));
    const ratios = [1, 2, 4, 8, 16].map((number) => told(number).ratio);
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
    expect(ratios[0]).toBeGreaterThan(dishPrior.ratio);
    expect(ratios.at(-1)).toBeGreaterThan(4.8);
    expect(ratios.at(-1)).toBeLessThan(5);
    expect(told(8)).toMatchObject({ pairs: 8, eveningPairs: 11 });
  });

  it('is less in doubt with every pair, and evenings that differ are learnt', () => {
    const same = dishRatio([pair(10, 30), pair(12, 36), pair(9, 27), pair(11, 33), pair(10, 30), pair(12, 36)]);
    const mixed = dishRatio([pair(5, 30), pair(24, 36), pair(4, 27), pair(20, 33), pair(5, 30), pair(25, 36)]);
    expect(same.ratioLogSd).toBeLessThan(dishPrior.ratioLogSd / 2);
    expect(same.eveningLogSd).toBeLessThan(dishPrior.eveningLogSd);
    expect(mixed.eveningLogSd).toBeGreaterThan(dishPrior.eveningLogSd);
  });

  it("of a line is the prior of its tubs, with room for a tub's own ways", () => {
    const line = dishRatio(Array.from({ length: 20 }, () => pair(15, 30)));
    const prior = asTubPrior(line);
    expect(prior.ratio).toBe(line.ratio);
    expect(prior.ratioLogSd).toBeGreaterThan(line.ratioLogSd);
    expect(dishRatio([pair(10, 40)], prior).ratio).toBeGreaterThan(line.ratio);
    expect(dishRatio([pair(10, 40)], prior).ratio).toBeLessThan(dishRatio([pair(10, 40)], dishPrior).ratio);
  });
});

describe('a count at the dish', () => {
  it('without any pair is wide', () => {
    const { median, low, high } = estimate(dishPrior, 12);
    expect(median).toBe(30);
    expect(low).toBeGreaterThanOrEqual(12);
    expect(low).toBeLessThan(15);
    expect(high).toBeGreaterThan(60);
  });

  it('is never below what was seen, and ten seen tell more than one', () => {
    const pairs = fc.array(fc.record({ seen: fc.nat(40), full: fc.nat(120) }), { maxLength: 10 });
    fc.assert(
      fc.property(pairs, fc.integer({ min: 1, max: 100 }), (told, seen) => {
        const belief = dishRatio(told);
        const [few, many] = [estimate(belief, seen), estimate(belief, 10 * seen)];
        expect(few.low).toBeGreaterThanOrEqual(seen);
        expect(few.low).toBeLessThanOrEqual(few.median);
        expect(few.median).toBeLessThanOrEqual(few.high);
        expect(Number.isFinite(few.high)).toBe(true);
        expect(many.logSd).toBeLessThanOrEqual(few.logSd);
      }),
      { numRuns: 1000 },
    );
  });

  it('of none tells no number, and of half an animal is a bug', () => {
    expect(dishEstimate(dishPrior, 0)).toEqual({ ok: false, fault: { kind: 'none-seen' } });
    for (const wrong of [-1, 2.5, Number.NaN]) expect(() => dishEstimate(dishPrior, wrong)).toThrow(RangeError);
  });

  it('holds the truth about as often as it says, with no pair, one, four and twelve', () => {
    const random = openRandom(20_270_415);
    const shares = [0, 1, 4, 12].map((known) => {
      let held = 0;
      const tubs = 500;
      for (let tub = 0; tub < tubs; tub += 1) {
        const usual = Math.log(dishPrior.ratio) + dishPrior.ratioLogSd * random.normal();
        const evening = (): DishPair => {
          const full = random.whole(25, 90);
          const share = Math.min(1, Math.exp(-usual - dishPrior.eveningLogSd * random.normal()));
          let seen = 0;
          for (let animal = 0; animal < full; animal += 1) seen += Number(random.happens(share));
          return pair(seen, full);
        };
        const belief = dishRatio(Array.from({ length: known }, evening));
        const tonight = evening();
        if (tonight.seen === 0) {
          tub -= 1;
          continue;
        }
        const { low, high } = estimate(belief, tonight.seen);
        held += Number(Math.floor(low) <= tonight.full && tonight.full <= Math.ceil(high));
      }
      return held / tubs;
    });
    process.stdout.write(`dish counts: truth inside 80 % with 0, 1, 4, 12 pairs: ${shares.join(', ')}\n`);
    for (const share of shares) {
      expect(share).toBeGreaterThan(0.75);
      expect(share).toBeLessThan(0.92);
    }
  });
});

describe('pairs of counts', () => {
  const noon = '2027-04-13T10:00:00.000Z' as Instant;
  const count = (saleable: number, method: CountMethod, at: Instant): StockCount => ({
    ...{ id: 1, entryId: 1, at, by: 'wren', loggedAt: at, tubId: 1 },
    ...{ saleable, juveniles: null, berried: null, method, passes: null },
  });
  const later = (days: number): Instant => plusMs(noon, days * dayMs);
  const step = (number: number, days: number): StockStep => ({ number, at: later(days), entryId: 9 });
  const none = { came: [], left: [] };

  it('are a dish count and the full one nearest to it within three days', () => {
    const counts = [
      count(80, 'full', later(-3)),
      count(60, 'passes', later(1)),
      count(20, 'dish', noon),
      count(25, 'dish', later(-9)),
      count(30, 'glance', later(0.1)),
    ];
    expect(dishPairs(counts, none)).toEqual([pair(20, 60)]);
    expect(dishPairs(counts.slice(0, 1).concat(counts.slice(2)), none)).toEqual([pair(20, 80)]);
  });

  it('reckon with what came and left between, forwards and back', () => {
    const steps = { came: [step(5, -1), step(50, -5)], left: [step(12, -0.5), step(3, 0.5), step(70, 2)] };
    expect(dishPairs([count(60, 'full', later(-2)), count(20, 'dish', noon)], steps)).toEqual([pair(20, 53)]);
    expect(dishPairs([count(60, 'full', later(1)), count(20, 'dish', noon)], steps)).toEqual([pair(20, 63)]);
  });
});
