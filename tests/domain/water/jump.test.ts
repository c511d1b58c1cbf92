import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jumpOf, swappedTogether, tdsJumpLimitMgL } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const unknown = { tempC: null, tdsMgL: null, ghDgh: null };

// Mass balance by hand; the limits are common practice without a source.
describe('the jump that a change makes', () => {
  it.each([
    [0.1, 18.8],
    [0.25, 17],
  ])('of %d with tap water of 8 °C takes 20 °C to %d', (fraction, after) => {
    const jump = jumpOf(fraction, { ...unknown, tempC: 20 }, { ...unknown, tempC: 8 }, 3);
    expect(jump.moves).toMatchObject([{ of: 'temperature', before: 20, limit: 2 }]);
    expect(jump.moves[0]?.after).toBeCloseTo(after, 9);
  });

  it('says how warm the new water may be for a whole change', () => {
    const { newWaterC } = jumpOf(0.25, { ...unknown, tempC: 20 }, unknown, 3);
    expect(newWaterC).toEqual({ from: 12, to: 28 });
    expect(jumpOf(0.25, unknown, { ...unknown, tempC: 8 }, 3).newWaterC).toBeNull();
  });

  it('is split by the value furthest over its limit', () => {
    // GH 4 → 16 by a quarter: 3 °dGH, limit 2. TDS 100 → 500: 100 mg/L, limit 40: three parts.
    const jump = jumpOf(0.25, { tempC: null, tdsMgL: 100, ghDgh: 4 }, { tempC: 20, tdsMgL: 500, ghDgh: 16 }, 3);
    expect(jump.moves.map(({ of, by, limit }) => [of, by, limit])).toEqual([
      ['tds', 100, 40],
      ['gh', 3, 2],
    ]);
    expect(jump).toMatchObject({ parts: 3, gapDays: 3 });
    expect(jump.partFraction).toBeCloseTo(0.25 / 3, 9);
  });

  it('is whole at its limits and where nothing is known', () => {
    expect(jumpOf(0.25, { tempC: 20, tdsMgL: 400, ghDgh: 4 }, { tempC: 12, tdsMgL: 640, ghDgh: 12 }, 3).parts).toBe(1);
    expect(jumpOf(0.25, unknown, unknown, 3)).toEqual({
      moves: [],
      parts: 1,
      partFraction: 0.25,
      gapDays: 3,
      newWaterC: null,
    });
  });

  it('allows TDS the larger of 40 mg/L and 15 % of the tub', () => {
    expect(tdsJumpLimitMgL(100)).toBe(40);
    expect(tdsJumpLimitMgL(400)).toBeCloseTo(60, 9);
  });

  it('keeps within every limit in each of the fewest parts, and swaps nearly the same', () => {
    const water = fc.record({
      tempC: fc.double({ min: 5, max: 30, noNaN: true }),
      tdsMgL: fc.double({ min: 0, max: 900, noNaN: true }),
      ghDgh: fc.double({ min: 0, max: 30, noNaN: true }),
    });
    fc.assert(
      fc.property(water, water, fc.double({ min: 0.02, max: 1, noNaN: true }), (tub, source, fraction) => {
        const whole = jumpOf(fraction, tub, source, 3);
        const over = ({ by, limit }: { by: number; limit: number }): number => Math.abs(by) / limit;
        const part = jumpOf(whole.partFraction, tub, source, 3);
        for (const move of part.moves) expect(over(move)).toBeLessThanOrEqual(1 + 1e-6);
        if (whole.parts > 1) {
          const fewer = jumpOf(fraction / (whole.parts - 1), tub, source, 3);
          expect(Math.max(...fewer.moves.map(over))).toBeGreaterThan(1);
        }
        const together = swappedTogether(Array.from({ length: whole.parts }, () => whole.partFraction));
        expect(together).toBeLessThanOrEqual(fraction + 1e-9);
        expect(together).toBeGreaterThan(0.63 * fraction);
      }),
    );
  });
});
