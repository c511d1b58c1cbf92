import { describe, expect, it } from 'vitest';
import {
  bitsOf,
  eventsOf,
  noiseOf,
  normalOf,
  purposes,
  shareOf,
  shuffled,
  streamOf,
} from '../../../../src/domain/colony/model/chance.ts';
import { spreadOf } from '../../../../src/domain/colony/model/spread.ts';

/** Bits of 40 tubs, 100 days and 16 members: streams that lie as close to each other as they do in use. */
const bits = Array.from({ length: 40 }, (_, tub) => tub).flatMap((tub) =>
  Array.from({ length: 100 }, (_, on) => streamOf(tub, on, purposes.daily)).flatMap((stream) =>
    Array.from({ length: 16 }, (_, member) => bitsOf(stream, member)),
  ),
);

describe('chance without a state', () => {
  it('is the same for the same tub, day, purpose and member, and another for any other', () => {
    expect(bitsOf(streamOf(3, 9000, purposes.daily), 5)).toBe(bitsOf(streamOf(3, 9000, purposes.daily), 5));
    expect(new Set(bits).size).toBeGreaterThan(bits.length - 5);
    expect(streamOf(3, 9000, purposes.daily)).not.toBe(streamOf(3, 9000, purposes.drift));
  });

  it('spreads evenly: each of the 32 bits is set in half of the draws, and neighbours have nothing in common', () => {
    for (let bit = 0; bit < 32; bit++) {
      const set = bits.filter((one) => ((one >>> bit) & 1) === 1).length / bits.length;
      expect(Math.abs(set - 0.5), `bit ${bit}`).toBeLessThan(0.01);
    }
    const shares = bits.map(shareOf);
    const { mean, sd } = spreadOf(shares);
    expect(mean).toBeCloseTo(0.5, 2);
    expect(sd).toBeCloseTo(Math.sqrt(1 / 12), 2);
    const products = shares.slice(1).map((share, nth) => (share - 0.5) * ((shares[nth] ?? 0) - 0.5));
    expect(Math.abs(spreadOf(products).mean * 12)).toBeLessThan(0.015);
  });

  it.each([
    ['four bytes', normalOf],
    ['two bytes', (one: number) => noiseOf(one >>> 16)],
  ])('has mean 0 and deviation 1 by %s', (_, of) => {
    const { mean, sd } = spreadOf(bits.map(of));
    expect(Math.abs(mean)).toBeLessThan(0.015);
    expect(sd).toBeCloseTo(1, 1);
  });

  it.each([0, 0.05, 0.24, 0.26, 1, 3, 5.9, 6.1, 40])(
    'has as many events as are expected, %f, with their variance',
    (mean) => {
      const { mean: found, sd } = spreadOf(bits.map((one) => eventsOf(mean, one >>> 16)));
      expect(Math.abs(found - mean)).toBeLessThanOrEqual(0.012 * Math.sqrt(mean) + 0.002 * mean);
      const variance = mean < 0.25 ? mean * (1 - mean) : mean;
      expect(Math.abs(sd - Math.sqrt(variance))).toBeLessThanOrEqual(0.03 * Math.sqrt(mean));
      expect(Math.min(...bits.map((one) => eventsOf(mean, one >>> 16)))).toBeGreaterThanOrEqual(0);
    },
  );

  it('orders all members, each once', () => {
    expect([...shuffled(99, 50)].sort((a, b) => a - b)).toEqual(Array.from({ length: 50 }, (_, nth) => nth));
    expect(shuffled(99, 50)).not.toEqual(shuffled(98, 50));
  });
});
