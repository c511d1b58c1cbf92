import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  defaultBusiness,
  type Instant,
  mostTubName,
  nextPass,
  type PassesFault,
  type PassesLogged,
  passesEstimate,
  type Tub,
} from '../../src/domain/index.ts';
import { passesCard, passesForm, refusalCard, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

fc.configureGlobal({ seed: 20270413 });

const now = '2027-04-13T16:50:00.000Z' as Instant;
const voice = voiceFor(defaultBusiness, now);
const tub: Tub = {
  ...{ id: 1, name: 'W'.repeat(mostTubName), lineId: 1, lineName: 'orange', litres: 40, netLitres: 32 },
  ...{ rack: 'A', role: 'breeding', addedAt: now, retired: null },
};

const catches = fc.array(fc.integer({ min: 0, max: 250 }), { minLength: 2, maxLength: 4 });

/** The passes as they would be logged; null where they tell no number. */
function logged(caught: readonly number[]): PassesLogged | null {
  const found = passesEstimate(caught);
  if (!found.ok) return null;
  const saleable = Math.round(found.value.number);
  return {
    ...{ tub, saleable, juveniles: null, berried: null, method: 'passes', at: now, newer: null },
    ...{ expected: { low: 900, median: 1000, high: 1100 }, now: { low: 800, median: 990, high: 1200 }, surprise: null },
    ...{ dish: null, entryId: 9, catches: caught, estimate: found.value },
    next: caught.length < 4 ? nextPass(caught, found.value) : null,
  };
}

describe('the card of any passes', () => {
  it('fits a phone, names the method, and has at most five lines of why', () => {
    fc.assert(
      fc.property(catches, fc.integer({ min: -200, max: 5000 }), (caught, free) => {
        const passes = logged(caught);
        if (passes === null || passes.estimate.high > 999) return;
        const card = passesCard(voice, 'wren', passes, free);
        expectPhone(card);
        expect(card.why?.[0]).toMatch(/^Counted by passes: /);
        expect(card.why?.length).toBeLessThanOrEqual(5);
        expect(card.controls?.flat().length).toBeLessThanOrEqual(3);
      }),
      { numRuns: 500 },
    );
  });

  it('gives the range only where there is doubt', () => {
    const sure = logged([40, 0]);
    const unsure = logged([79, 28]);
    if (sure === null || unsure === null) throw new Error('no estimate');
    expect(passesCard(voice, 'wren', sure, 0).title).toBe(`${tub.name}: 40 saleable`);
    expect(passesCard(voice, 'wren', unsure, 0).title).toBe(`${tub.name}: 122 saleable (115–141)`);
  });
});

describe('the refusal of passes', () => {
  it.each<PassesFault>([
    { kind: 'nothing-caught', caught: 0 },
    { kind: 'all-in-the-last', caught: 12 },
    { kind: 'no-decline', caught: 9000 },
    { kind: 'weak-decline', caught: 128, low: 210, high: 999 },
  ])('fits a phone, says what was netted and what to do: $kind', (fault) => {
    const two = refusalCard(voice, { kind: 'passes-tell-nothing', tub: tub.name, catches: [4500, 4500], fault });
    expectPhone(two);
    expect(two.title).toMatch(/^Not logged: /);
    expect(two.why?.[0]).toBe(`${tub.name}: 4500, 4500`);
    expect(two.next).toBe('Net once more with the same effort');
    const four = refusalCard(voice, { kind: 'passes-tell-nothing', tub: tub.name, catches: [5, 5, 5, 5], fault });
    expect(four.next).toBe('Strip the tub out and log a full count');
    expect(four.offers).toMatchObject([
      {
        label: fault.caught === 0 ? 'Log 0' : `Log the ${fault.caught} caught`,
        path: 'count log',
        patch: { tub: tub.name, saleable: fault.caught },
      },
    ]);
  });

  it('asks for the pass that was left out', () => {
    const card = refusalCard(voice, { kind: 'pass-left-out' });
    expectPhone(card);
    expect(card.next).toBe('Give the third too, 0 if it caught nothing');
  });
});

describe('the form of passes', () => {
  it('has a field for each of four, two of them needed, filled with what was netted', () => {
    const form = passesForm(tub, [79, 28]);
    expect(form.fields.map(({ id, required, value }) => [id, required, value])).toEqual([
      ['first', true, '79'],
      ['second', true, '28'],
      ['third', false, undefined],
      ['fourth', false, undefined],
    ]);
    expect(form.title.length).toBeLessThanOrEqual(45);
  });
});
