import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { commands, handle } from '../../commands/index.ts';
import { sale } from '../../commands/sale.ts';
import { season } from '../../commands/season.ts';
import { addTubs, setLine } from '../../src/desk/index.ts';
import { type Press, press } from '../../src/reply/index.ts';
import { labelsOf, linesOf } from '../support/answers.ts';
import { sellingDeskAt, taken } from '../support/sellingDesk.ts';
import { ctxOf, typed } from '../support/typing.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2026-11-01T09:00:00Z');
});
afterEach(() => test.close());

const leaves = [...sale.leaves, ...season.leaves];
function run(path: string, raw: Record<string, unknown>, name?: string) {
  const leaf = leaves.find((each) => each.path === path);
  if (leaf === undefined) throw new Error(path);
  return typed(test, leaf, raw, name);
}
const pressed = (control: Press, fields: Record<string, string> = {}, values: string[] = []) =>
  handle(control, ctxOf(test, 'alder'), { fields, values });
/** Presses the button of that label under an answer. */
function pushed(answer: Awaited<ReturnType<typeof run>>, label: string) {
  const control = (answer.card?.controls ?? []).flat().find((each) => each.kind === 'button' && each.label === label);
  if (control === undefined) throw new Error(`no button ${label}`);
  return pressed(control.press);
}
const freeJade = () => test.jade().free;

describe('/sale add', () => {
  it('says the verdict on the day in its first line, and moves the sale with the button', async () => {
    await run('season', { 'close-from': '15 Nov', 'close-to': '10 Mar', name: 'Winter' });
    const closed = await run('sale add', { items: '20 jade', buyer: 'kestrel', 'dispatch-on': '2027-01-13' });
    expect(closed.private).toBeUndefined();
    expect(linesOf(closed).slice(0, 2)).toEqual([
      'Sale 1: no, not on Wed 13 Jan',
      'Closed window Winter: 15 Nov to 10 Mar, open again Thu 11 Mar',
    ]);
    expect(linesOf(closed)).toContain('Next good day: Mon 15 Mar');
    expect(labelsOf(closed)).toEqual(['Move to Mon 15 Mar', 'Paid', 'Cancel sale']);
    const moved = await pushed(closed, 'Move to Mon 15 Mar');
    expect(linesOf(moved)[0]).toBe('Sale 1: may go Mon 15 Mar');
    expect(linesOf(moved)).toContain('Moved from Wed 13 Jan');
  });

  it('asks where a forecast is due, and says so in the first line', async () => {
    expect(linesOf(await run('sale add', { items: '5 jade', 'dispatch-on': 'tomorrow' }))[0]).toBe(
      'Sale 1: ask, Mon 2 Nov',
    );
  });

  it('leads to the count that it waits for', async () => {
    taken(addTubs(test.desk, test.by('wren'), { names: ['C1'], line: 'snow', litres: 30 }));
    taken(setLine(test.desk, test.by('wren'), { line: 'amber' }));
    taken(addTubs(test.desk, test.by('wren'), { names: ['D1'], line: 'amber', litres: 30 }));
    const uncounted = await run('sale add', { items: '5 amber' });
    expect(linesOf(uncounted)[0]).toBe('Not logged: amber is not counted yet');
    expect(labelsOf(uncounted)).toEqual(['Count D1']);
    expect((await pushed(uncounted, 'Count D1')).form?.title).toBe('Count of D1');
  });

  it('takes the buyer from the words of the order', async () => {
    expect(linesOf(await run('sale add', { items: '2 tens jade for Sam' })).join('\n')).toContain(
      '20 jade + 3 extras for Sam',
    );
    expect(linesOf(await run('sale add', { items: '1 jade for Sam', buyer: 'kestrel' }))[0]).toBe(
      'Not logged: not all items understood',
    );
    expect(linesOf(await run('sale add', { items: '1 whale for Sam' }))).toContain('Not: "whale for Sam"');
  });

  it('answers an item with a typo with what was understood, and takes the mended list on a button', async () => {
    const asked = await run('sale add', { items: '5 jaed, 1 moss' });
    expect(asked.private).toBe(true);
    expect(linesOf(asked)).toContain('Understood: 1 moss');
    expect(freeJade()).toBe(test.freeUntouched());
    const sold = await pushed(asked, 'Take 5 jade, 1 moss');
    expect(linesOf(sold)[0]).toBe('Sale 1: ask, Mon 2 Nov');
    expect(freeJade()).toBe(test.freeUntouched() - 6);
  });

  it.each([
    ['0 jade', 'Not logged: not all items understood'],
    ['10000 jade', 'Not logged: {free} jade free to promise'],
    ['', 'Not logged: the items were not understood'],
    ['jade', 'Not logged: not all items understood'],
  ])('refuses %j in private and leaves nothing behind', async (items, title) => {
    const refused = await run('sale add', { items });
    expect(refused).toMatchObject({ private: true, card: { title: title.replace('{free}', String(freeJade())) } });
    expect(test.desk.store.sales.all()).toEqual([]);
  });

  it('refuses a past day, a slip in the price, an unknown outlet and region', async () => {
    const wrong = [{ 'dispatch-on': '2026-10-30' }, { price: -3 }, { outlet: 'club' }, { region: 'Atlantis' }];
    for (const raw of wrong) expect((await run('sale add', { items: '5 jade', ...raw })).private).toBe(true);
    expect(test.desk.store.sales.all()).toEqual([]);
  });

  it('sells the last animals once when both partners try', async () => {
    await run('sale add', { items: `${test.largest().fits - 10} jade` }, 'wren');
    const free = freeJade();
    expect(8 + test.extrasOf(8)).toBeLessThanOrEqual(free);
    const both = await Promise.all([
      run('sale add', { items: '8 jade' }, 'wren'),
      run('sale add', { items: '8 jade' }, 'alder'),
    ]);
    expect(free).toBeLessThan(2 * (8 + test.extrasOf(8)));
    expect(both.map((answer) => answer.private ?? false)).toEqual([false, true]);
    expect(linesOf(both[1] ?? {})[0]).toMatch(/^Not logged: \d jade free to promise$/);
    expect(freeJade()).toBe(free - 8 - test.extrasOf(8));
  });

  it('takes decimals as money of the currency', async () => {
    await run('sale add', { items: '5 jade', price: 12.35, postage: 6.5 });
    expect(test.desk.store.sales.get(1)).toMatchObject({ priceMinor: 1235, postageMinor: 650 });
  });
});

describe('/sale paid', () => {
  it('says what is less or more than agreed, and asks about a second payment', async () => {
    await run('sale add', { items: '5 jade', buyer: 'kestrel' });
    const part = await run('sale paid', { sale: 'kestrel', amount: 9 });
    expect(linesOf(part)[0]).toBe('Sale 1: paid €9.00, €1.00 open');
    expect(linesOf(part)).toContain('Kept, as part of it is paid; packed once the rest is in');
    expect([part.card?.next, labelsOf(part)]).toEqual(['Ask for the rest: €1.00 open', ['Paid', 'Undo']]);
    expect(linesOf(await run('sale show', { sale: '1' }))).toContain('€10.00; €9.00 paid, €1.00 open, so it is kept');
    const again = await run('sale paid', { sale: '#1' }, 'alder');
    expect(linesOf(again)[0]).toBe('Sale 1 was already paid in part');
    expect(linesOf(again)).toContain('€1.00 are still open');
    expect(linesOf(await pushed(again, 'Paid the €1.00 left'))[0]).toBe('Sale 1: paid €1.00');
    expect(linesOf(await run('sale show', { sale: '1' }))).toContain('€10.00; paid €10.00 10:01');
    expect(labelsOf(await run('sale paid', { sale: '1' }))).toEqual(['It is a second payment', 'Leave it']);
  });

  it('asks for the amount in a form where no price is set', async () => {
    const sold = await run('sale add', { items: '5 snow' });
    expect((await pushed(sold, 'Paid')).form?.fields.map(({ id }) => id)).toEqual(['amount']);
    const wrong = await pressed(press('sale-amount-send', { sale: 1 }), { amount: 'ten' });
    expect(wrong.private).toBe(true);
    expect(linesOf(await pressed(press('sale-amount-send', { sale: 1 }), { amount: '10,50' }))[0]).toBe(
      'Sale 1: paid €10.50',
    );
  });
});

it('opens the cancel form and cancels with its reason', async () => {
  const free = freeJade();
  const sold = await run('sale add', { items: '5 jade' });
  expect(freeJade()).toBe(free - 6);
  expect((await pushed(sold, 'Cancel sale')).form?.title).toBe('Cancel sale 1');
  const answer = await pressed(press('sale-cancel-send', { sale: 1 }), { reason: 'no answer' });
  expect(linesOf(answer).slice(0, 3)).toEqual([
    'Sale 1: cancelled',
    '5 jade + 1 extra free again',
    'Reason: no answer',
  ]);
  expect(freeJade()).toBe(free);
});

it('books a sale from the form of the home card, and keeps what was typed when it is refused', async () => {
  const refused = await pressed(press('sale-send', {}), { items: '500 jade', buyer: 'heron' });
  expect(labelsOf(refused)).toContain('Correct it');
  const sold = await pressed(press('sale-send', {}), { items: '5 jade', buyer: 'heron', price: '9,99', area: '' });
  expect(linesOf(sold)[0]).toBe('Sale 1: ask, Mon 2 Nov');
  expect(test.desk.store.sales.get(1)).toMatchObject({ buyer: 'heron', priceMinor: 999, area: null });
});

it('leads from a buyer that it does not know to the list', async () => {
  await run('sale add', { items: '5 jade', buyer: 'heron' });
  const unknown = await run('sale show', { sale: 'whale' });
  expect(linesOf(unknown).at(-1)).toMatch(/Choose it from the list$/);
  expect(linesOf(await pushed(unknown, 'Sales'))[0]).toBe('Sales: 1 open');
});

it('lists sales and shows the one that is picked', async () => {
  await run('sale add', { items: '5 jade', buyer: 'heron', 'dispatch-on': 'Fri' });
  const listed = await run('sale list', {});
  expect(linesOf(listed)).toEqual([
    'Sales: 1 open',
    'Not on a good day (!): 1',
    'no. day   state what        buyer',
    '1!  6 Nov kept  5 jade      heron',
  ]);
  expect(linesOf(await run('sale list', { state: 'sent' }))[0]).toBe('Sales: none sent');
  expect(linesOf(await pressed(press('sale-pick', {}), {}, ['1']))[0]).toBe('Sale 1: no, not on Fri 6 Nov');
});

it('moves every sale that a new season closes', async () => {
  await run('sale add', { items: '5 jade', 'dispatch-on': '2026-11-16' });
  await run('sale add', { items: '5 jade', 'dispatch-on': '2026-11-17' });
  const closed = await run('season', { 'close-from': '15 Nov', 'close-to': '10 Mar', name: 'Winter' });
  expect(linesOf(closed)[0]).toBe('Winter: 15 Nov to 10 Mar, 2 sales to move');
  expect(labelsOf(closed)).toEqual(['Move 1 to Mon 15 Mar', 'Move 2 to Mon 15 Mar', 'Move all 2', 'Undo']);
  const moved = await pushed(closed, 'Move all 2');
  expect(linesOf(moved)).toEqual([
    '2 sales moved',
    'Sale 1 to Mon 15 Mar',
    'Sale 2 to Mon 15 Mar',
    'logged by alder',
    'Tell the buyers',
  ]);
});

it('is among the commands of the menu', () => {
  expect(commands.map(({ name }) => name)).toEqual(
    expect.arrayContaining(['sale', 'goods', 'dispatch', 'season', 'claim']),
  );
});
