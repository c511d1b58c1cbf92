import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { claim } from '../../commands/claim.ts';
import { dispatch } from '../../commands/dispatch.ts';
import { goods } from '../../commands/goods.ts';
import { handle } from '../../commands/index.ts';
import { sale } from '../../commands/sale.ts';
import { paySale } from '../../src/desk/index.ts';
import { day } from '../../src/domain/index.ts';
import { type Press, press } from '../../src/reply/index.ts';
import { labelsOf, linesOf } from '../support/answers.ts';
import { sellingDeskAt, taken } from '../support/sellingDesk.ts';
import { ctxOf, typed } from '../support/typing.ts';

let test: ReturnType<typeof sellingDeskAt>;
const monday = day('2027-03-15');
beforeEach(() => {
  test = sellingDeskAt('2027-03-14T09:00:00Z');
  for (const buyer of ['kestrel', 'heron']) {
    const { id } = test.sell(10, { buyer, dispatchOn: monday });
    if (buyer === 'kestrel') taken(paySale(test.desk, test.by('wren'), { sale: String(id) }));
  }
  test.advance({ days: 1 });
});
afterEach(() => test.close());

const leaves = [...dispatch.leaves, ...claim.leaves, ...goods.leaves, ...sale.leaves];
function run(path: string, raw: Record<string, unknown> = {}) {
  const leaf = leaves.find((each) => each.path === path);
  if (leaf === undefined) throw new Error(path);
  return typed(test, leaf, raw);
}
const pressed = (control: Press, fields: Record<string, string> = {}, values: string[] = []) =>
  handle(control, ctxOf(test, 'alder'), { fields, values });
function pushed(answer: Awaited<ReturnType<typeof run>>, label: string) {
  const control = (answer.card?.controls ?? []).flat().find((each) => each.kind === 'button' && each.label === label);
  if (control === undefined) throw new Error(`no button ${label}`);
  return pressed(control.press);
}

describe('/dispatch check', () => {
  it('has exactly one verdict in the first line', async () => {
    const first = async (raw: Record<string, unknown>) => linesOf(await run('dispatch check', raw))[0];
    expect(await first({ date: 'Fri' })).toBe('Fri 19 Mar: no');
    expect(await first({ date: '22 Mar' })).toBe('Mon 22 Mar: may go');
    expect(await first({ date: 'tomorrow' })).toBe('Tue 16 Mar: ask');
    expect(await first({ date: '22 Mar', region: 'Belgium' })).toBe('Mon 22 Mar: ask, to BE');
    expect(await first({ date: 'someday' })).toBe('Not logged: the day was not understood');
  });
});

describe('the packing list', () => {
  it('is worked off with its buttons and shown anew each time', async () => {
    const list = await run('dispatch day');
    expect(linesOf(list)[0]).toBe('Mon 15 Mar: 1 parcel to pack');
    expect(linesOf(list)).toContain('A1      jade        12 1');
    expect(linesOf(list)).toContain('Bags for 1: 2 × 6 in 1 L, for 72 h at 20 °C');
    expect(labelsOf(list)).toEqual(['Sent 1', 'Pack one by one', 'Paid 2']);
    const paid = await pushed(list, 'Paid 2');
    expect(paid.settle?.title).toBe('Mon 15 Mar: 2 parcels to pack');
    const sent = await pushed(list, 'Sent 1');
    expect(linesOf(sent)).toContain('Out of one tub: A1: 12 jade');
    expect(sent.settle?.title).toBe('Mon 15 Mar: 1 parcel to pack, 1 sent');
    const again = await pushed(list, 'Sent 1');
    expect(again).toMatchObject({ private: true, card: { title: 'Parcel 1 was already sent' } });
    expect(again.settle).toBeUndefined();
  });

  it('takes several parcels at once, and names those that raise a question', async () => {
    const sent = await pressed(press('pack-sent-pick', { day: monday }), {}, ['1', '2']);
    expect(linesOf(sent)).toEqual([
      '1 parcel sent',
      '1: A1: 12 jade',
      'Not 2: Sale 2 is not paid',
      'logged by alder',
      'Mark the others one by one with /dispatch sent',
    ]);
    expect(await pressed(press('pack', {}))).toMatchObject({ card: { title: 'Mon 15 Mar: nothing to pack, 1 sent' } });
  });
});

describe('/dispatch sent', () => {
  it('keeps what was said to one question while it asks the next', async () => {
    await run('dispatch weather', { date: 'today', area: 'home', low: 1, high: 9 });
    const unpaid = await run('dispatch sent', { sale: 'heron' });
    const unsafe = await pushed(unpaid, 'Sent unpaid all the same');
    expect(linesOf(unsafe)).toEqual([
      'Stop: parcel 2 may not go today',
      'Low 1 °C at home on Mon 15 Mar, bound 5 °C',
      'Not marked as sent yet',
      'Keep it until Tue 16 Mar',
    ]);
    expect(linesOf(await pushed(unsafe, 'It is on its way already'))[0]).toBe('Parcel 2: sent');
  });

  it('moves the sale instead, from the same question', async () => {
    await run('dispatch weather', { date: 'today', area: 'home', low: 1, high: 9 });
    const moved = await pushed(await run('dispatch sent', { sale: '1' }), 'Move to Tue 16 Mar');
    expect(linesOf(moved)[0]).toBe('Sale 1: ask, Tue 16 Mar');
  });
});

describe('/dispatch weather', () => {
  it('is entered in a form, and refuses what is no number', async () => {
    const opened = await pressed(press('weather-form', { sale: 1, day: monday }));
    expect(opened.form?.fields.map(({ id, value }) => [id, value])).toEqual([
      ['area', 'home'],
      ['low', undefined],
      ['high', undefined],
    ]);
    const bad = await pressed(press('weather-send', { day: monday }), { area: 'home', low: 'cold', high: '9' });
    expect(bad.private).toBe(true);
    const kept = await pressed(press('weather-send', { day: monday }), { area: '', low: '6,5', high: '14' });
    expect(linesOf(kept).slice(0, 2)).toEqual([
      'Parcel 1: ask, Mon 15 Mar',
      'Low 6.5 °C, high 14 °C at home on Mon 15 Mar',
    ]);
    expect(linesOf(kept)).toContain('Only the weather here was looked at: say where it goes, with area');
  });

  it('leads from one end of the way to the other, a form at a time', async () => {
    const asked = await run('sale show', { sale: '1' });
    expect(labelsOf(asked)).toContain('Enter forecast');
    await pressed(press('weather-send', { day: monday }), { area: 'home', low: '6', high: '14' });
    const where = await pushed(await run('sale show', { sale: '1' }), 'Where does 1 go?');
    expect(where.form?.fields.map(({ id }) => id)).toEqual(['area']);
    const said = await pressed(press('sale-area-send', { sale: 1 }), { area: 'Harlingen' });
    expect(linesOf(said)).toContain('No forecast yet for Harlingen tomorrow');
    const home = await pressed(press('weather-send', { day: monday }), { area: 'home', low: '6', high: '15' });
    const form = await pushed(home, 'Enter Harlingen Tue 16 Mar');
    expect(form.form).toMatchObject({
      title: 'Forecast for Tue 16 Mar',
      fields: [{ id: 'area', value: 'Harlingen' }, {}, {}],
    });
    const both = await pressed(press('weather-send', { day: '2027-03-16' }), {
      ...{ area: 'Harlingen', low: '9', high: '17' },
    });
    expect(linesOf(both)[0]).toBe('Parcel 1: may go Mon 15 Mar');
    expect(linesOf(await run('sale show', { sale: '1' }))).toContain(
      'Low 6 °C, high 17 °C on the way, as of today 10:01',
    );
  });
});

describe('an arrival', () => {
  beforeEach(async () => {
    await run('dispatch sent', { sale: '1' });
    test.advance({ days: 1 });
  });
  const photo = { id: '1', name: 'bag.jpg', url: 'https://example.invalid/bag.jpg', sizeBytes: 9, contentType: null };

  it('with losses inside the extras keeps the promise', async () => {
    const answer = await run('dispatch arrived', { sale: '1', dead: 2, delivered: '09:06', photo });
    expect(linesOf(answer).slice(0, 2)).toEqual([
      'Parcel 1: promise kept, 10 of 10',
      '12 sent, 2 dead, 10 alive; reported 55 min after delivery, with photo',
    ]);
    expect(labelsOf(answer)).toEqual(['Show the text', 'Refund anyway', 'Undo']);
    const anyway = await pushed(answer, 'Refund anyway');
    expect(linesOf(anyway)[0]).toBe('Claim on sale 1: promise kept, 2 dead');
    expect(labelsOf(anyway)).toContain('Refund €4.00');
  });

  it('with more dead opens the claim, which is answered once from its buttons', async () => {
    const answer = await run('dispatch arrived', { sale: '1', dead: 5, photo });
    expect(linesOf(answer)[0]).toBe('Parcel 1: 3 short, claim opened');
    expect(labelsOf(answer)).toEqual(['Refund €6.00', 'Resend Wed 17 Mar', 'Decline', 'Show the text', 'Undo']);
    expect(linesOf(await pushed(answer, 'Refund €6.00'))[0]).toBe('Claim on sale 1: refund €6.00');
    const twice = await pushed(answer, 'Resend Wed 17 Mar');
    expect(twice).toMatchObject({ private: true, card: { title: 'The claim on sale 1 is already answered' } });
    const text = await pushed(answer, 'Show the text');
    expect(text.private).toBe(true);
    expect(linesOf(text)).toContain('We are paying back €6.00.');
  });

  it('outside the window is the partners’ choice', async () => {
    await run('dispatch arrived', { sale: '1', photo });
    test.advance({ hours: 30 });
    const opened = await run('claim open', { sale: '1', dead: 6 });
    expect(linesOf(opened).join('\n')).toContain('outside your stated window (to 10:01), your choice');
    expect(labelsOf(opened)).toHaveLength(5);
  });

  it('from the form takes the dead and the moment', async () => {
    expect((await pressed(press('arrived-form', { sale: 1 }))).form?.fields.map(({ id }) => id)).toEqual([
      'dead',
      'delivered',
    ]);
    const answer = await pressed(press('arrived-send', { sale: 1 }), { dead: '0', delivered: '09:00' });
    expect(linesOf(answer).slice(0, 2)).toEqual(['Parcel 1: promise kept, 10 of 10', '12 sent, all alive']);
    const before = await pressed(press('arrived-send', { sale: 2 }), { dead: '0', delivered: '' });
    expect(before).toMatchObject({ private: true, card: { title: 'Not logged: sale 2 is not sent yet' } });
  });

  it('whose photo cannot be kept is not logged', async () => {
    const arrived = dispatch.leaves.find(({ path }) => path === 'dispatch arrived');
    const keepPhoto = () => Promise.resolve({ ok: false as const, cause: 'The file is no picture' });
    const answer = await arrived?.handle({ sale: '1', photo }, { ...ctxOf(test), keepPhoto });
    expect(answer).toMatchObject({ private: true, card: { title: 'The photo could not be kept' } });
    expect(test.desk.store.sales.get(1)?.arrival).toBeNull();
  });
});

it('shows goods, and warns when few are left', async () => {
  expect(linesOf(await run('goods', { name: 'Moss', add: -4 }))).toEqual([
    'moss: 1 to sell, buy more',
    '1 there (4 taken out), 0 promised',
    '€4.00 each',
    'Keep at least 2',
    'logged by wren 10:01',
    'Buy at least 1',
  ]);
  expect(linesOf(await run('goods', { name: 'moss', add: -2 }))[0]).toBe('Not logged: 1 moss there');
});

it('leads from a day that is not good to the packing list of the next', async () => {
  const bad = await run('dispatch check', { date: '2027-03-19' });
  expect(labelsOf(bad)).toEqual(['Packing list Mon 22 Mar']);
  const empty = await pushed(bad, 'Packing list Mon 22 Mar');
  expect(linesOf(empty)[0]).toBe('Mon 22 Mar: nothing to pack');
  expect(labelsOf(empty)).toEqual(['Sales']);
  expect(labelsOf(await run('dispatch day', { date: '2027-03-19' }))).toEqual(['Packing list Mon 22 Mar', 'Sales']);
  expect(labelsOf(await run('dispatch check', { date: '2027-03-22' }))).toEqual([
    'Enter forecast',
    'Packing list Mon 22 Mar',
  ]);
});
