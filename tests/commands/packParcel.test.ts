import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Answer } from '../../commands/command.ts';
import { dispatch } from '../../commands/dispatch.ts';
import { handle } from '../../commands/index.ts';
import { logReading, paySale } from '../../src/desk/index.ts';
import { day } from '../../src/domain/index.ts';
import { type Press, press } from '../../src/reply/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, linesOf } from '../support/answers.ts';
import { sellingDeskAt, taken } from '../support/sellingDesk.ts';
import { ctxOf, typed } from '../support/typing.ts';

const monday = day('2027-03-15');
let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-14T09:00:00Z');
  sell('kestrel');
  sell('heron');
  taken(
    logReading(test.desk, test.by('wren'), {
      tub: 'A1',
      values: { tempC: 21.5, ph: 7.4, ghDgh: 8, khDkh: 4, tdsMgL: 240 },
    }),
  );
});
afterEach(() => test.close());

function sell(buyer: string, number = 10): void {
  const { id } = test.sell(number, { buyer, dispatchOn: monday });
  taken(paySale(test.desk, test.by('wren'), { sale: String(id) }));
  test.advance({ minutes: 1 });
}

async function list(): Promise<Answer> {
  const leaf = dispatch.leaves.find(({ path }) => path === 'dispatch day');
  if (leaf === undefined) throw new Error('no /dispatch day');
  return typed(test, leaf, { date: '2027-03-15' });
}
const pressed = (control: Press, name = 'wren', fields: Record<string, string> = {}) =>
  handle(control, ctxOf(test, name), { fields, values: [] });
/** The answer as it is seen: what was settled in place, or a new card. */
const seen = (answer: Answer): Answer => (answer.settle === undefined ? answer : { card: answer.settle });
async function pushed(answer: Answer, label: string, name = 'wren'): Promise<Answer> {
  const { card } = seen(answer);
  const control = (card?.controls ?? []).flat().find((each) => each.kind === 'button' && each.label === label);
  if (control === undefined) throw new Error(`no button ${label} among ${labelsOf({ ...(card && { card }) }).join()}`);
  return pressed(control.press, name);
}

describe('packing one by one', () => {
  it('shows what goes in, from where, the slip, and what is to be checked', async () => {
    const first = await pushed(await list(), 'Pack one by one');
    expectPhone(first.card);
    const lines = linesOf(first);
    expect(lines[0]).toBe('Parcel 1: 0 of 6 checks done');
    expect(lines).toContain('1 of 2 parcels for Mon 15 Mar');
    expect(lines).toContain('10 jade + 2 extras for kestrel');
    expect(lines).toContain('Catch A1: 12 jade');
    expect(lines).toContain('Slip, A1: 21.5 °C, pH 7.4, GH 8, KH 4, TDS 240 (today)');
    expect(lines.at(-1)).toBe('Net the animals as listed');
    expect(labelsOf(first)).toEqual([
      ...['Caught', 'Counted 12', 'Second count', 'Stood 10 min, dry', 'Slip in'],
      ...['Sent 1', 'Next: parcel 2', 'Slip text', 'Packing list'],
    ]);
  });

  it('is ticked in place, counted twice by two, and then ready', async () => {
    let card = await pushed(await list(), 'Pack one by one');
    card = await pushed(card, 'Caught');
    expect(card.card).toBeUndefined();
    expect(linesOf(seen(card))[0]).toBe('Parcel 1: 1 of 6 checks done');
    expect(linesOf(seen(card))).toContain('caught             wren 10:03');
    expect(labelsOf(seen(card))).toContain('Undo');
    card = await pushed(card, 'Counted 12');
    expect((await pushed(card, 'Second count', 'alder')).form?.fields.map(({ value }) => value)).toEqual([undefined]);
    const count = (number: string) => pressed(press('pack-count-send', { day: monday, sale: 1 }), 'alder', { number });

    const wrong = await count('11');
    expect(linesOf(seen(wrong))[0]).toBe('Parcel 1: 11 counted, 12 to send');
    expect(linesOf(seen(wrong))).toContain('second count 11    alder 10:03, not it');
    expect(linesOf(seen(wrong)).at(-1)).toBe('Count once more, both of you');
    expect(labelsOf(await count('eleven'))).toEqual(['Correct it']);
    card = await count('12');
    for (const label of ['Stood 10 min, dry', 'Slip in', 'Label on']) card = await pushed(card, label);
    expectPhone(card.settle);
    expect(linesOf(seen(card))[0]).toBe('Parcel 1: packed, ready to go');
    expect(labelsOf(seen(card))[0]).toBe('Sent 1');

    const whole = await list();
    expectPhone(whole.card);
    expect(linesOf(whole).find((line) => line.startsWith('1 kestrel'))).toMatch(/, packed$/);
    expect(linesOf(seen(await pushed(card, 'Next: parcel 2')))[0]).toBe('Parcel 2: 0 of 6 checks done');
    expect(linesOf(await pushed(whole, 'Pack one by one'))[0]).toBe('Parcel 2: 0 of 6 checks done');
  });

  it('says when one person counted twice', async () => {
    let card = await pushed(await list(), 'Pack one by one');
    card = await pushed(card, 'Counted 12');
    card = await pressed(press('pack-count-send', { day: monday, sale: 1 }), 'wren', { number: '12' });
    expect(linesOf(seen(card))).toContain('Both counts are by one of you: let the other one count');
  });

  it('gives the slip to copy, to the asker alone', async () => {
    const slip = await pushed(await pushed(await list(), 'Pack one by one'), 'Slip text');
    expect(slip.private).toBe(true);
    expect(linesOf(slip).slice(0, 3)).toEqual([
      'Slip of parcel 1, to copy',
      'Packed Mon 15 Mar: 10 jade + 2 extras',
      'Our water, A1: 21.5 °C, pH 7.4, GH 8, KH 4, TDS 240 (today)',
    ]);
    expect(linesOf(slip)).toContain('Any dead? Tell us within 24 h of delivery, with a photo of the bag');
  });

  it('says of a parcel that is gone that it is not to be packed', async () => {
    const card = await pushed(await list(), 'Pack one by one');
    test.advance({ days: 1 });
    const sent = await pushed(card, 'Sent 1');
    expect(linesOf(sent.card?.title.startsWith('Parcel') ? sent : seen(sent))[0]).toBe('Parcel 1: sent');
    expect(await pushed(card, 'Slip text')).toMatchObject({
      private: true,
      card: { title: 'Parcel 1 is not to be packed now' },
    });
    expect((await pushed(card, 'Caught')).private).toBe(true);
    expect(await pressed(press('pack-start', { day: '2027-03-16' }))).toMatchObject({ private: true });
  });
});

it('keeps within two rows however many parcels and unpaid sales a day has', async () => {
  for (let index = 0; index < 3; index += 1) sell(`buyer ${index}`, 2);
  for (let index = 0; index < 6; index += 1) test.sell(1, { buyer: `late ${index}`, dispatchOn: monday });
  const many = await list();
  expectPhone(many.card);
  expect(labelsOf(many)).toEqual(['Pack one by one', 'Paid 6', 'Paid 7', 'Paid 8', 'Paid 9']);
});
