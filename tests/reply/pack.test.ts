import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  bagKinds,
  defaultBusiness,
  type Instant,
  type LineBags,
  type Packed,
  type PackRefusal,
  planBags,
} from '../../src/domain/index.ts';
import { noPackCard, packCard, voiceFor } from '../../src/reply/index.ts';
import { parcelBagsWords } from '../../src/reply/packWords.ts';
import { expectPhone } from './phone.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T16:50:00.000Z' as Instant;
const voices = fc
  .constantFrom('metric' as const, 'us' as const)
  .map((units) => voiceFor({ ...defaultBusiness, units }, now));
const tempC = fc.integer({ min: -300, max: 450 }).map((tenths) => tenths / 10);
const questions = fc.record({
  kind: fc.constantFrom(...bagKinds),
  animals: fc.integer({ min: 1, max: 200 }),
  lengthMm: fc.integer({ min: 10, max: 80 }).map((halves) => halves / 2),
  hours: fc.integer({ min: 1, max: 400 }),
  ph: fc.integer({ min: 40, max: 105 }).map((tenths) => tenths / 10),
  khDkh: fc.option(fc.integer({ min: 0, max: 40 })),
  way: fc
    .record({ startC: fc.integer({ min: 0, max: 400 }).map((tenths) => tenths / 10), airC: tempC })
    .map(({ startC, airC }) => ({ startC, warmC: airC, coldC: airC })),
});
const packs = fc.record({
  plan: questions.map(planBags),
  untold: fc.subarray(['length', 'hours', 'temperature'] as const),
  measured: fc.record({ tempC: fc.boolean(), ph: fc.boolean() }),
  slip: fc.option(fc.constant({ value: 21, how: 'celsius' } as const)),
});

describe('the card of any bag plan', () => {
  it('fits a phone in both units, with at most four lines of why', () => {
    fc.assert(
      fc.property(voices, packs, (voice, packed: Packed) => {
        const card = packCard(voice, packed);
        expectPhone(card);
        expect(card.why?.length).toBeLessThanOrEqual(4);
      }),
      { numRuns: 300 },
    );
  });

  it('calls safe what lasts, and nothing else', () => {
    fc.assert(
      fc.property(voices, packs, (voice, packed: Packed) => {
        const { lasts, hotAfter, coldAfter, question } = packed.plan;
        const safe = lasts && hotAfter === null && coldAfter === null;
        expect(packCard(voice, packed).title.endsWith(`: safe for ${question.hours} h`)).toBe(safe);
      }),
      { numRuns: 200 },
    );
  });
});

it('says why there is no plan on a phone too', () => {
  const amount = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  const faults = fc.record({
    kind: fc.constant('impossible-pack' as const),
    name: fc.constantFrom('number' as const, 'length-mm' as const, 'hours' as const, 'temp' as const),
    typed: amount,
    min: fc.constant(1),
    max: fc.constant(40),
    mended: fc.option(
      fc.record({
        value: fc.integer({ min: 8, max: 34 }),
        how: fc.constantFrom('fahrenheit' as const, 'celsius' as const, 'decimal' as const, 'centimetres' as const),
      }),
    ),
  });
  fc.assert(
    fc.property(voices, faults, (voice, fault: PackRefusal) => {
      const card = noPackCard(voice, fault);
      expectPhone(card);
      expect(card.title).toMatch(/^Not planned: /);
    }),
  );
});

describe('the bags of a parcel', () => {
  const voice = voiceFor(defaultBusiness, now);
  const bagsFor = (animals: number, line = 'jade', airC = 20): LineBags => ({
    line,
    plan: planBags({
      ...{ kind: 'ordinary', animals, lengthMm: 15, hours: 72, ph: 7.4, khDkh: 5 },
      way: { startC: 20, warmC: airC, coldC: airC },
    }),
  });

  it('are told bag by bag while that fits, else line by line, else in one sum', () => {
    expect(parcelBagsWords(voice, [])).toBe('');
    expect(parcelBagsWords(voice, [bagsFor(12)])).toBe('12 in 0.55 L, for 72 h at 20 °C');
    expect(parcelBagsWords(voice, [bagsFor(12), bagsFor(6, 'snow')])).toBe(
      'jade 12 in 0.55 L · snow 6 in 0.3 L, for 72 h at 20 °C',
    );
    expect(parcelBagsWords(voice, [bagsFor(25), bagsFor(12, 'snow')])).toBe(
      'jade 2 bags, 1.1 L · snow 1 bag, 0.55 L, for 72 h at 20 °C',
    );
    expect(parcelBagsWords(voice, [bagsFor(12, 'jade', 14), bagsFor(6, 'snow', 16)])).toMatch(/ at 16 °C$/);
    const four = ['jade', 'snow', 'red rili', 'carbon'].map((line) => bagsFor(10, line));
    expect(parcelBagsWords(voice, four)).toBe('4 bags, 1.8 L, for 72 h at 20 °C');
  });

  it('are none where it is too hot, too cold or too long', () => {
    expect(parcelBagsWords(voice, [bagsFor(12, 'jade', 33)])).toBe('too hot after 2 h in air of 33 °C');
    expect(parcelBagsWords(voice, [bagsFor(12, 'jade', 1)])).toBe('too cold after 3 h in air of 1 °C');
    const long = planBags({ ...bagsFor(12).plan.question, hours: 300 });
    expect(parcelBagsWords(voice, [{ line: 'jade', plan: long }])).toBe('none lasts 300 h at 20 °C');
  });

  it('stay on a line whatever the parcel', () => {
    const some = fc.array(
      fc.record({ line: fc.constantFrom('jade', 'snow', 'a line with a long name'), plan: questions.map(planBags) }),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(voices, some, (spoken, bags) => {
        expect(parcelBagsWords(spoken, bags).length).toBeLessThanOrEqual(58);
      }),
      { numRuns: 100 },
    );
  });
});
