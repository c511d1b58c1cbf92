import { describe, expect, it } from 'vitest';
import { type AmountName, amount, day, defaultBusiness, type Instant, type Refusal } from '../../src/domain/index.ts';
import { refusalCard, type Voice, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from './phone.ts';

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice: Voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);
const us: Voice = { ...voice, units: 'us' };
const yesterday = '2027-04-12T17:10:00.000Z' as Instant;

describe('the words of a refusal', () => {
  it('offer 22.2 °C for 72, and 71.6 °F for 22', () => {
    const refusal: Refusal = {
      kind: 'impossible-water',
      tub: 'A3',
      value: 'tempC',
      typed: 72,
      mended: [{ value: 22.2, how: 'fahrenheit' }],
      last: { value: 21.9, at: yesterday },
    };
    const card = refusalCard(voice, refusal);
    expectPhone(card);
    expect(card).toMatchObject({
      title: 'Not logged: 72 °C cannot be right',
      why: ['72 °F would be 22.2 °C', 'A3 was 21.9 °C yesterday 19:10'],
      offers: [{ label: 'Log 22.2 °C', patch: { temp: 22.2 } }],
    });
    const inUs = refusalCard(us, { ...refusal, typed: 22, mended: [{ value: 22, how: 'celsius' }], last: null });
    expect(inUs).toMatchObject({
      title: 'Not logged: 22 °F cannot be right',
      offers: [{ label: 'Log 71.6 °F', patch: { temp: 71.6 } }],
    });
  });

  it('offer 7.4 for pH 74, and nothing where nothing fits', () => {
    const refusal: Refusal = {
      kind: 'impossible-water',
      tub: 'A3',
      value: 'ph',
      typed: 74,
      mended: [{ value: 7.4, how: 'decimal' }],
      last: null,
    };
    expect(refusalCard(voice, refusal).offers).toMatchObject([{ label: 'Log pH 7.4', patch: { ph: 7.4 } }]);
    const hopeless = refusalCard(voice, { ...refusal, typed: 725, mended: [] });
    expect(hopeless.offers).toBeUndefined();
    expect(hopeless.next).toBe('Measure again, or check the decimal point');
  });

  it('offer hardness in mg/L of CaCO3 and the lost point, the likelier first', () => {
    const card = refusalCard(voice, {
      kind: 'impossible-water',
      tub: 'A3',
      value: 'ghDgh',
      typed: 180,
      mended: [
        { value: 10.1, how: 'ppm' },
        { value: 18, how: 'decimal' },
      ],
      last: null,
    });
    expectPhone(card);
    expect(card.why).toEqual(['180 mg/L (ppm) of CaCO3 is GH 10.1 °dGH', 'With a decimal point it is GH 18 °dGH']);
    expect(card.offers).toMatchObject([
      { label: 'Log GH 10.1 °dGH', patch: { gh: 10.1 }, tone: 'main' },
      { label: 'Log GH 18 °dGH', patch: { gh: 18 }, tone: 'plain' },
    ]);
  });

  it('ask about what can be but hardly is, and take it all the same when it is right', () => {
    const card = refusalCard(voice, {
      kind: 'ask-unlikely-water',
      tub: 'A3',
      value: 'tdsMgL',
      typed: 24,
      mended: [{ value: 240, how: 'decimal' }],
      last: { value: 238, at: yesterday },
    });
    expectPhone(card);
    expect(card.title).toBe('Not logged yet: A3, TDS 24?');
    expect(card.why).toEqual(['A3 was TDS 238 mg/L yesterday 19:10', 'With a decimal point it is TDS 240 mg/L']);
    expect(card.offers).toMatchObject([
      { label: 'Log TDS 240 mg/L', patch: { tds: 240 } },
      { label: 'TDS 24 is right', patch: { sure: true } },
    ]);
  });

  it('say what two changes mean, in either system of units', () => {
    const refusal: Refusal = {
      kind: 'ask-changed-already',
      tub: 'A4',
      litres: 5,
      percent: 25,
      togetherPercent: 44,
      previous: { litres: 5, percent: 25, at: yesterday, by: 'alder' },
    };
    expect(refusalCard(voice, refusal)).toMatchObject({
      title: 'A4 was already changed yesterday 19:10',
      why: ['alder logged 5 L (25 %)', 'With these 5 L (25 %) the two swap 44 %', 'Not logged yet'],
      offers: [{ patch: { second: true, litres: 5 } }, { path: 'topup', patch: { tub: 'A4', litres: 5 } }],
    });
    expect(refusalCard(us, refusal).why?.[0]).toBe('alder logged 5 L (1.3 gal, 25 %)');
  });

  it.each<[AmountName, number, string]>([
    ['animals', 0, 'Not logged: 0 animals cannot be right'],
    ['animals', 10_000, 'Not logged: 10000 animals cannot be right'],
    ['saleable', 10_000, 'Not logged: 10000 saleable cannot be right'],
    ['litres', 0, 'Not logged: 0 L cannot be right'],
    ['low', -80, 'Not logged: -80 °C as the low cannot be right'],
    ['source-nitrate', -5, 'Not logged: -5 mg/L at source cannot be right'],
  ])('name the %s that was typed: %d', (name, typed, title) => {
    const checked = amount(name, typed);
    if (checked.ok) throw new Error('not refused');
    const card = refusalCard(voice, checked.fault);
    expect(card.title).toBe(title);
    expect(card.why?.[0]).toMatch(/^It goes from /);
    expect(card.next).toBeDefined();
  });

  it("give a temperature's bounds on the asker's scale", () => {
    const checked = amount('high', 70);
    if (checked.ok) throw new Error('not refused');
    expect(refusalCard(us, checked.fault).why).toEqual(['It goes from -58 °F to 140 °F']);
  });

  it.each<Refusal>([
    { kind: 'unknown', noun: 'tub', typed: 'A9', near: ['A1', 'A2', 'A3'] },
    { kind: 'unknown', noun: 'tub', typed: 'the tub that stands behind the other tubs', near: [] },
    { kind: 'ambiguous', noun: 'sale', typed: 'kestrel', near: ['41', '43'] },
    { kind: 'name-taken', noun: 'tub', name: 'A3' },
    { kind: 'bad-name', noun: 'tub', typed: '---' },
    { kind: 'nothing-given', what: 'at least one value, like temp or nitrate' },
    { kind: 'bad-words', what: 'when', typed: 'the day after never', example: 'yesterday 18:00' },
    { kind: 'in-the-future', at: '2027-04-14T07:00:00.000Z' as Instant },
    { kind: 'too-long-ago', at: '1999-01-01T12:00:00.000Z' as Instant, since: day('2000-01-01') },
    { kind: 'past-day', day: day('2027-04-12'), today: day('2027-04-13') },
    { kind: 'tub-retired', tub: 'A3', at: yesterday },
    { kind: 'ask-cost-twice', amountMinor: 1250, what: 'flakes', at: yesterday, by: 'alder' },
    { kind: 'bad-span', from: day('2027-04-12'), to: day('2027-04-01') },
    { kind: 'buyer-open', buyer: 'kestrel', sales: [41, 43], claims: [42] },
    { kind: 'cannot-undo', summary: 'a buyer forgotten, sales kept: 3' },
    { kind: 'tub-in-use', tub: 'A3', saleable: 12 },
    { kind: 'same-tub', tub: 'A3' },
    { kind: 'too-few-there', tub: 'A3', number: 500, there: 12, countedAt: yesterday },
    { kind: 'more-than-the-tub', tub: 'A3', litres: 50, netLitres: 20 },
    { kind: 'ask-mix-lines', from: 'A3', fromLine: 'orange', to: 'B1', toLine: 'green', number: 5 },
    { kind: 'ask-many', tub: 'A3', number: 1000, litres: 20 },
    { kind: 'nothing-to-undo' },
    { kind: 'change-logged-already', tub: 'A3', litres: 5, at: yesterday, by: 'alder', loggedAt: now },
    { kind: 'voided-already', summary: 'A4 changed 5 L', at: yesterday, by: 'alder' },
    { kind: 'others-rest-on-it', summary: 'added tub A1', later: ['A1 changed 5 L'] },
    { kind: 'not-yours', summary: 'A4 changed 5 L', by: 'alder' },
    { kind: 'owner-only', what: 'use /setup water' },
    { kind: 'last-owner', name: 'wren' },
    { kind: 'not-a-person', name: 'robot' },
    { kind: 'clock-back', to: yesterday, now },
  ])('fit a phone and say what is wrong and what to do: $kind', (refusal) => {
    const card = refusalCard(voice, refusal);
    expectPhone(card);
    const says = [...(card.why ?? []), ...(card.next === undefined ? [] : [card.next])];
    expect(says.length).toBeGreaterThan(0);
    expect(`${card.title} ${says.join(' ')}`.toLowerCase()).not.toContain('invalid');
    expect(card.title).not.toContain(refusal.kind);
  });
});
