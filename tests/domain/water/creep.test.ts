import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { afterChange, creepFactor, creepOf, creepPlateau, type Instant, plusMs } from '../../../src/domain/index.ts';
import { numberIn, publishedTable } from '../../published/table.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T16:50:00.000Z' as Instant;
const ago = (days: number): Instant => plusMs(now, -days * 86_400_000);
const table = publishedTable('mineralCreep.csv');

describe('the creep of minerals', () => {
  it('is checked against every row of the table', () => {
    expect(table.rows).toHaveLength(4);
  });

  it.each(table.rows)('of $evaporated topped up and $changed changed settles at $times times the tap', (row) => {
    const e = numberIn(row, 'evaporated');
    const f = numberIn(row, 'changed');
    expect(creepFactor(e, f)?.toFixed(2)).toBe(row['times']);
    // Lived through week by week: the minerals of e come on top, then f is changed.
    let level = 180;
    for (let week = 0; week < 400; week++) level = afterChange(level, f, 180) + e * 180;
    expect(level / 180).toBeCloseTo(numberIn(row, 'times'), 2);
    expect(creepPlateau(180, { factor: creepFactor(e, f) })).toBeCloseTo(level, 6);
  });

  const weekly = (litres: number) => Array.from({ length: 8 }, (_, week) => ({ at: ago(week * 7 + 2), litres }));

  it('is reckoned from the top-ups and changes of 60 days', () => {
    const log = {
      changes: [...weekly(2), { at: ago(61), litres: 20 }],
      topUps: [
        ...weekly(0.8).map((one) => ({ ...one, water: 'tap' as const })),
        ...weekly(0.4).map((one) => ({ ...one, water: 'soft' as const })),
        { at: ago(75), litres: 9, water: 'tap' as const },
      ],
    };
    const creep = creepOf(20, log, ago(300), now);
    // 8 × 2 L in 60 days of 20 L: 16/20/(60/7) a week. e/f = 0.8/2.
    expect(creep).toMatchObject({ days: 60, wantsSoftTopUps: true });
    expect(creep?.changedPerWeek).toBeCloseTo(0.09333, 4);
    expect(creep?.tapTopUpPerWeek).toBeCloseTo(0.03733, 4);
    expect(creep?.evaporatedPerWeek).toBeCloseTo(0.056, 4);
    expect(creep?.factor).toBeCloseTo(1.4, 9);
  });

  it('is none with soft top-ups, and has no end where nothing is changed', () => {
    const topUps = weekly(1).map((one) => ({ ...one, water: 'soft' as const }));
    expect(creepOf(20, { changes: weekly(2), topUps }, ago(60), now)).toMatchObject({
      factor: 1,
      wantsSoftTopUps: false,
    });
    const tap = weekly(1).map((one) => ({ ...one, water: 'tap' as const }));
    const endless = creepOf(20, { changes: [], topUps: tap }, ago(60), now);
    expect(endless).toMatchObject({ factor: null, wantsSoftTopUps: true });
    expect(creepPlateau(180, { factor: null })).toBeNull();
  });

  it('does not speak under three weeks of log, and only of the log there is', () => {
    const log = { changes: weekly(2), topUps: [] };
    expect(creepOf(20, log, ago(20), now)).toBeNull();
    expect(creepOf(20, log, ago(31), now)).toMatchObject({ days: 31, factor: 1 });
    // Five of the weekly changes lie in these 31 days.
    expect(creepOf(20, log, ago(31), now)?.changedPerWeek).toBeCloseTo((5 * 2) / 20 / (31 / 7), 9);
  });

  it('grows with what is topped up from the tap and shrinks with what is changed', () => {
    const share = fc.double({ min: 0.001, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(share, share, (e, f) => {
        const factor = creepFactor(e, f) ?? Number.NaN;
        expect(factor).toBeGreaterThan(1);
        expect(creepFactor(e + 0.01, f)).toBeGreaterThan(factor);
        expect(creepFactor(e, f + 0.01)).toBeLessThan(factor);
      }),
    );
  });
});
