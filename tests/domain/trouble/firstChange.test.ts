import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstChange, mostSwappedADay, swappedTogether } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const unknown = { tempC: null, tdsMgL: null, ghDgh: null };
const water = { tub: unknown, source: unknown };
const jumpy = { tub: { tempC: 22, tdsMgL: 300, ghDgh: 14 }, source: { tempC: null, tdsMgL: 60, ghDgh: 3 } };

describe('the change of first aid', () => {
  it('is a quarter against what was measured or may be in the water, less where nothing is known', () => {
    expect(firstChange('ammonia', 20, 0, water)).toEqual({ why: 'ammonia', litres: 5, fraction: 0.25, bound: 'a day' });
    expect(firstChange('poison', 20, 0, water)?.litres).toBe(5);
    expect(firstChange('untreated', 20, 0, water)).toMatchObject({ litres: 4, bound: null });
    expect(firstChange('not known', 20, 0, water)).toMatchObject({ litres: 3, bound: null });
  });

  it('leaves room only for what was not changed within the day', () => {
    expect(firstChange('ammonia', 20, 0.1, water)).toMatchObject({ litres: 3, bound: 'changed today' });
    expect(firstChange('ammonia', 20, 0.25, water)).toBeNull();
    expect(firstChange('not known', 20, 0.3, water)).toBeNull();
    // Less than half a litre is none.
    expect(firstChange('ammonia', 3, 0.2, water)).toBeNull();
  });

  it('is made in parts where minerals would jump, yet no less than a tenth against a poison', () => {
    expect(firstChange('not known', 40, 0, jumpy)).toMatchObject({ litres: 6, bound: null });
    const hard = { tub: { tempC: 22, tdsMgL: 700, ghDgh: 25 }, source: { tempC: null, tdsMgL: 60, ghDgh: 3 } };
    expect(firstChange('not known', 40, 0, hard)).toMatchObject({ litres: 3, bound: 'minerals' });
    expect(firstChange('ammonia', 40, 0, hard)).toMatchObject({ litres: 4, bound: 'minerals' });
  });

  it('never makes more than a quarter of a day', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('ammonia', 'nitrite', 'poison', 'untreated', 'not known' as const),
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        fc.boolean(),
        (why, netLitres, swapped, isJumpy) => {
          const change = firstChange(why as 'ammonia', netLitres, swapped, isJumpy ? jumpy : water);
          if (change === null) return;
          expect(change.litres % 0.5).toBe(0);
          expect(change.litres).toBeGreaterThan(0);
          expect(swappedTogether([change.fraction, swapped])).toBeLessThanOrEqual(mostSwappedADay + 1e-9);
        },
      ),
    );
  });
});
