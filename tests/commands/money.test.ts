import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { cost } from '../../commands/cost.ts';
import { exportCommand } from '../../commands/export.ts';
import { handle } from '../../commands/index.ts';
import { money } from '../../commands/money.ts';
import { sale } from '../../commands/sale.ts';
import { setBusiness } from '../../src/desk/index.ts';
import { type Press, press } from '../../src/reply/index.ts';
import { labelsOf, linesOf } from '../support/answers.ts';
import { rowCounts } from '../support/rowCounts.ts';
import { sellingDeskAt, taken } from '../support/sellingDesk.ts';
import { ctxOf, typed } from '../support/typing.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2026-11-10T09:00:00Z');
});
afterEach(() => test.close());

const leaves = [...cost.leaves, ...money.leaves, ...exportCommand.leaves, ...sale.leaves];
function run(path: string, raw: Record<string, unknown>, name?: string) {
  const leaf = leaves.find((each) => each.path === path);
  if (leaf === undefined) throw new Error(path);
  return typed(test, leaf, raw, name);
}
const pressed = (control: Press, fields: Record<string, string> = {}, values: string[] = []) =>
  handle(control, ctxOf(test, 'alder'), { fields, values });
function pushed(answer: Awaited<ReturnType<typeof run>>, label: string) {
  const control = (answer.card?.controls ?? []).flat().find((each) => each.kind === 'button' && each.label === label);
  if (control === undefined) throw new Error(`no button ${label}`);
  return pressed(control.press);
}

describe('/cost', () => {
  it('logs what was spent, shows it to both, and leads to the month and to undo', async () => {
    const spent = await run('cost', { amount: 12.5, what: 'flakes', kind: 'feed', tub: 'a1' });
    expect(spent.private).toBeUndefined();
    expect(linesOf(spent).slice(0, 2)).toEqual(['Spent €12.50: flakes', 'Feed, for A1: jade bears it']);
    expect(labelsOf(spent)).toEqual(['Money', 'Undo']);
    expect(linesOf(await pushed(spent, 'Money'))[0]).toBe('November so far: -€12.50 net');
    expect(linesOf(await pushed(await pushed(spent, 'Undo'), 'Undo it'))[0]).toBe('Undone: cost, feed: flakes');
    expect(linesOf(await run('money', {}))).toContain('No money came or went');
  });

  it('asks about the same receipt twice, and takes it with its moment all the same', async () => {
    await run('cost', { amount: 12.5, what: 'flakes', kind: 'feed', when: 'yesterday' });
    const asked = await run('cost', { amount: 12.5, what: 'food', kind: 'feed', when: 'yesterday' }, 'alder');
    expect(asked).toMatchObject({ private: true, card: { title: '€12.50 was already logged for that day' } });
    test.advance({ days: 3 });
    const again = await pushed(asked, 'It is another one');
    expect(linesOf(again)).toContain('Feed in November: €25.00');
    expect(linesOf(again).join()).toMatch(/for Mon 9 Nov 12:00/);
  });

  it.each([
    [{ amount: 0, what: 'flakes' }, 'Not logged: nothing to log'],
    [{ amount: -3, what: 'flakes' }, 'Not logged: -3 as an amount cannot be right'],
    [{ amount: 0.001, what: 'flakes' }, 'Not logged: nothing to log'],
    [{ amount: 5, what: ' ' }, 'Not logged: nothing to log'],
    [{ amount: 5, what: 'x', tub: 'Q9' }, 'Not logged: no tub called "Q9"'],
    [{ amount: 5, what: 'x', when: 'tomorrow' }, 'Not logged: tomorrow 12:00 is still to come'],
  ])('refuses %j in private and writes nothing', async (raw, title) => {
    const before = rowCounts(test.folder);
    expect(await run('cost', raw)).toMatchObject({ private: true, card: { title } });
    expect(rowCounts(test.folder)).toEqual(before);
  });

  it('comes from a form too, which keeps what was typed when it is refused', async () => {
    expect((await pressed(press('cost-form', {}))).form?.fields.map(({ id }) => id)).toEqual([
      ...['amount', 'what', 'kind', 'tub', 'when'],
    ]);
    const wrong = await pressed(press('cost-send', {}), { amount: 'ten', what: 'flakes' });
    expect(labelsOf(wrong)).toEqual(['Correct it']);
    const fields = { amount: '12,50', what: 'bags', kind: 'Packing', tub: '', when: 'yesterday' };
    expect(linesOf(await pressed(press('cost-send', {}), fields))).toContain('Packing, shared by all lines');
    const odd = { ...fields, amount: '3', kind: 'stationery' };
    expect(linesOf(await pressed(press('cost-send', {}), odd))).toContain('Other, shared by all lines');
    expect(labelsOf(await pressed(press('cost-send', {}), { ...fields, amount: '4', tub: 'Q9' }))).toContain(
      'Correct it',
    );
  });
});

describe('/money', () => {
  it('shows a month and leads to those beside it and to the year', async () => {
    await run('sale add', { items: '10 jade', price: 20 });
    await run('sale paid', { sale: '1' });
    const shown = await run('money', {});
    expect(shown.private).toBeUndefined();
    expect(linesOf(shown)[0]).toBe('November so far: €20.00 net');
    expect(labelsOf(shown)).toEqual(['October', 'Year 2026', 'Log a cost']);
    const before = await pushed(shown, 'October');
    expect(linesOf(before)[0]).toBe('October: €0.00 net');
    expect(labelsOf(before)).toEqual(['September', 'November', 'Year 2026', 'Log a cost']);
    const year = await pushed(shown, 'Year 2026');
    expect(linesOf(year)[0]).toBe('2026 so far: €20.00 net');
    expect(linesOf(await pressed(press('money-pick', {}), {}, ['2026-11']))[0]).toBe('November so far: €20.00 net');
  });

  it('takes the tax year of the region', async () => {
    taken(setBusiness(test.desk, test.by('wren'), { region: 'GB-ENG' }));
    expect(linesOf(await run('money', { month: '2026' }))[0]).toBe('Year from 6 Apr 2026 so far: €0.00 net');
    expect(labelsOf(await run('money', { month: 'March 2026' }))).toContain('Year 2025');
    test.advance({ days: 90 });
    for (const month of ['this year', '2027', '2026']) {
      expect(linesOf(await run('money', { month }))[0]).toBe('Year from 6 Apr 2026 so far: €0.00 net');
    }
  });

  it('refuses what is no month in private', async () => {
    expect(await run('money', { month: 'sometime' })).toMatchObject({
      private: true,
      card: { title: 'Not logged: the month was not understood' },
    });
  });
});

describe('/export', () => {
  it('is for an owner, and for the asker alone', async () => {
    const [leaf] = exportCommand.leaves;
    expect(leaf).toMatchObject({ ownerOnly: true, slow: 'asker' });
    await run('sale add', { items: '10 jade', buyer: '=HYPERLINK("http://x")', area: '+31 Zwolle' });
    const exported = await run('export', { what: 'sales' });
    expect(exported).toMatchObject({ private: true, card: { title: 'Export: sales, 1 row' } });
    const [file] = exported.card?.files ?? [];
    expect(file?.name).toBe('sales-2026-11-10.csv');
    expect(file?.text.split('\r\n')[1]).toMatch(/^1,2026-11-10 10:01,"'=HYPERLINK\(""http:\/\/x""\)",'\+31 Zwolle,,,/);
  });

  it('gives everything, or what lies between two days', async () => {
    await run('cost', { amount: 5, what: 'flakes', when: '2026-10-01' });
    expect((await run('export', {})).card?.files?.length).toBeGreaterThan(8);
    expect((await run('export', { what: 'all', from: 'yesterday' })).card?.why?.[0]).toBe('From Mon 9 Nov');
    const linesIn = async (raw: Record<string, unknown>) =>
      (await run('export', { what: 'costs', ...raw })).card?.files?.[0]?.text.trim().split('\r\n').length;
    expect(await linesIn({ from: '2026-10-01', to: '2026-10-01' })).toBe(2);
    expect(await linesIn({ from: '2026-10-02' })).toBe(1);
  });

  it.each([
    [{ from: '2026-10-02', to: '2026-10-01' }, 'Not exported: the days go backwards'],
    [{ from: 'sometime' }, 'Not logged: the moment was not understood'],
    [{ to: '2026-02-30' }, 'Not logged: there is no 2026-02-30'],
  ])('refuses %j', async (raw, title) => {
    expect(await run('export', raw)).toMatchObject({ private: true, card: { title } });
  });
});

describe('/sale forget', () => {
  it('asks first, erases once, and says what it cannot reach', async () => {
    await run('sale add', { items: '10 jade', buyer: 'kestrel' });
    expect(await run('sale forget', { buyer: 'kestrel' })).toMatchObject({
      private: true,
      card: {
        title: 'Not forgotten: kestrel is still waiting',
        why: ['1 sale not sent: 1'],
        next: 'Send or cancel them first',
      },
    });
    await run('sale cancel', { sale: '1', reason: 'asked to be forgotten' });
    const asked = await run('sale forget', { buyer: 'Kestrel' });
    expect(asked).toMatchObject({ private: true, card: { title: 'Forget kestrel for good?' } });
    expect(labelsOf(asked)).toEqual(['Forget kestrel', 'Leave it']);
    expect(linesOf(await run('sale show', { sale: '1' })).join()).toContain('kestrel');
    const done = await pushed(asked, 'Forget kestrel');
    expect(done).toMatchObject({ private: true, settle: { title: 'Forgotten' } });
    expect(linesOf(done)).toContain('Nightly backups hold it until Tue 24 Nov');
    expect(JSON.stringify(done)).not.toContain('kestrel');
    expect(linesOf(await run('sale show', { sale: '1' })).join()).not.toContain('kestrel');
    expect(await pushed(asked, 'Forget kestrel')).toMatchObject({
      settle: { title: 'That buyer is already forgotten' },
    });
  });

  it('knows no buyer of that name', async () => {
    expect(await run('sale forget', { buyer: 'kestrel' })).toMatchObject({
      private: true,
      card: { title: 'Not logged: no buyer called "kestrel"' },
    });
  });
});
