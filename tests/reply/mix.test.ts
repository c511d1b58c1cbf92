import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultBusiness, type Instant, mixRecipe, pureWater } from '../../src/domain/index.ts';
import { mixCard, noMixCard, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T16:50:00.000Z' as Instant;
const value = (max: number) => fc.double({ min: 0, max, noNaN: true });
const waters = fc.record({
  ghDgh: fc.option(value(50)),
  khDkh: fc.option(value(40)),
  tdsMgL: fc.option(value(3000)),
  nitrateMgL: fc.option(value(500)),
});
const salts = fc.option(fc.record({ ghDgh: value(10), khDkh: value(10) }));

describe('the card of any mix', () => {
  it('fits a phone in both units, with at most four lines of why beside the gallons', () => {
    const litres = fc.integer({ min: 10, max: 20_000 }).map((tenths) => tenths / 10);
    const units = fc.constantFrom('metric' as const, 'us' as const);
    fc.assert(
      fc.property(litres, waters, waters, salts, units, (wanted, tap, target, salt, inUnits) => {
        const mix = mixRecipe({ litres: wanted, tap, pure: pureWater, salt, target });
        const voice = voiceFor({ ...defaultBusiness, units: inUnits }, now);
        const card = mix.ok ? mixCard(voice, { target, tap, mix: mix.value }) : noMixCard(mix.fault);
        expectPhone(card);
        expect(card.why?.length ?? 0).toBeLessThanOrEqual(inUnits === 'us' ? 5 : 4);
      }),
      { numRuns: 400 },
    );
  });
});
