import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { handle } from '../../commands/index.ts';
import { sale } from '../../commands/sale.ts';
import { voiceOf } from '../../commands/voice.ts';
import { waiting } from '../../commands/waiting.ts';
import { freeOf, seasonPost, setSeason, weeklyPost } from '../../src/desk/index.ts';
import type { MonthDay } from '../../src/domain/index.ts';
import { type Press, press, seasonPostCard, weeklyCard } from '../../src/reply/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, linesOf, wordsOf } from '../support/answers.ts';
import { sellingDeskAt, taken } from '../support/sellingDesk.ts';
import { ctxOf, typed } from '../support/typing.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2027-03-08T09:00:00Z');
});
afterEach(() => test.close());

function run(path: string, raw: Record<string, unknown> = {}) {
  const leaf = [...waiting.leaves, ...sale.leaves].find((each) => each.path === path);
  if (leaf === undefined) throw new Error(path);
  return typed(test, leaf, raw);
}
const pressed = (control: Press, fields: Record<string, string> = {}, values: string[] = []) =>
  handle(control, ctxOf(test, 'alder'), { fields, values });
async function pushed(answer: Awaited<ReturnType<typeof run>>, label: string) {
  const control = (answer.card?.controls ?? []).flat().find((each) => each.kind === 'button' && each.label === label);
  if (control === undefined) throw new Error(`no button ${label}`);
  return pressed(control.press);
}
const free = (line: string): number =>
  freeOf(test.desk, test.desk.store.tubs.lines().find(({ name }) => name === line)?.id ?? 0);
const wait = (buyer: string, number: number, line = 'jade') => run('waiting', { line, number, buyer });
/** The id of the first place on the list of jade. */
const firstId = () => test.desk.store.waiting.all()[0]?.id ?? 0;

describe('/waiting', () => {
  it('puts a buyer on the list, and turns the place into a sale with one tap', async () => {
    const added = await wait('kestrel', 20);
    expect(added.private).toBeUndefined();
    expect(linesOf(added)).toEqual([
      'kestrel waits for 20 jade',
      'Next on the list',
      `${free('jade')} free to promise, extras not yet taken off`,
      'logged by wren 10:01',
    ]);
    expect(labelsOf(added)).toEqual(['Sell 20 jade to kestrel', 'Waiting list', 'Undo']);
    const sold = await pushed(added, 'Sell 20 jade to kestrel');
    expect(linesOf(sold)).toContain('Off the waiting list for jade');
    expect(test.desk.store.sales.get(1)).toMatchObject({ buyer: 'kestrel', items: [{ number: 20, extras: 3 }] });
    expect(await pushed(added, 'Sell 20 jade to kestrel')).toMatchObject({
      private: true,
      card: { title: 'That place is already off the list' },
    });
  });

  it('shows a line in the order of entry, and lets one be chosen to sell to or to take off', async () => {
    await wait('kestrel', 60);
    test.advance({ days: 2 });
    await wait('heron', 20);
    const list = await run('waiting', { line: 'jade' });
    expectPhone(list.card);
    const lines = linesOf(list);
    const [, could = ''] = /^ 2 {2}heron {11}20 +(\d+) today$/.exec(lines[5] ?? '') ?? [];
    expect(lines.slice(0, 5)).toEqual([
      'jade: 2 waiting for 80',
      'Next: kestrel, all 60 can go now',
      `${free('jade')} free to promise, extras not yet taken off`,
      'no. buyer        wants  now since',
      ' 1  kestrel         60   60 2 days ago',
    ]);
    // Kestrel's 60 come first, extras on top; heron gets what is left of what is free.
    expect(Number(could)).toBeGreaterThan(0);
    expect(Number(could)).toBeLessThanOrEqual(free('jade') - 60);
    const heron = await pressed(press('waiting-pick', {}), {}, [String(firstId() + 1)]);
    expect(linesOf(heron).slice(0, 2)).toEqual(['heron waits for 20 jade', '1 buyer before them']);
    expect(linesOf(heron)[2]).toMatch(new RegExp(`^Now ${could} \\+ \\d+ extras? could go$`));
    expect(labelsOf(heron)).toEqual([`Sell ${could} jade to heron`, 'Take off the list', 'Waiting list']);
    const off = await pushed(heron, 'Take off the list');
    expect(linesOf(off).slice(0, 3)).toEqual([
      'heron is off the list for jade',
      'Wanted 20',
      'Next: kestrel, all 60 can go now',
    ]);
    expect(labelsOf(off)).toEqual(['Waiting list', 'Undo']);
  });

  it('shows all lines at a glance, and one when it is chosen', async () => {
    await wait('kestrel', 20);
    await wait('plover', 90, 'snow');
    const all = await run('waiting');
    expectPhone(all.card);
    const lines = linesOf(all);
    expect(lines.slice(0, 2)).toEqual(['Waiting: 2, 2 can be served now', 'jade: next kestrel, all 20 can go now']);
    expect(lines[2]).toMatch(/^snow: next plover, [12]\d of 90 can go now$/);
    expect(lines.slice(3)).toEqual([
      'line             wait   want   free',
      `jade                1     20     ${free('jade')}`,
      `snow                1     90     ${free('snow')}`,
    ]);
    const id = test.desk.store.tubs.lines()[1]?.id ?? 0;
    expect(linesOf(await pressed(press('waiting-line', {}), {}, [String(id)]))[0]).toBe('snow: 1 waiting for 90');
    expect(linesOf(await run('waiting', { buyer: 'plover' }))[0]).toBe('snow: 1 waiting for 90');
  });

  it('says that nobody waits, and takes somebody from the form', async () => {
    const none = await run('waiting');
    expect(linesOf(none)).toEqual(['Nobody is waiting', 'Put somebody on the list: line, number and buyer']);
    const form = await pushed(none, 'Put on waiting list');
    expect(form.form?.fields.map(({ id }) => id)).toEqual(['buyer', 'number', 'line']);
    const bad = await pressed(press('waiting-send', {}), { buyer: 'kestrel', number: 'twenty', line: 'jade' });
    expect(bad).toMatchObject({ private: true });
    expect(labelsOf(bad)).toEqual(['Correct it']);
    const added = await pressed(press('waiting-send', {}), { buyer: 'kestrel', number: '20', line: 'jade' });
    expect(linesOf(added)[0]).toBe('kestrel waits for 20 jade');
  });

  it('asks about one who waits already, and changes the number on the button', async () => {
    await wait('kestrel', 20);
    const asked = await wait('kestrel', 30);
    expect(asked).toMatchObject({ private: true, card: { title: 'kestrel already waits for 20 jade' } });
    expect(labelsOf(asked)).toEqual(['Make it 30', 'Leave it']);
    expect(linesOf(await pushed(asked, 'Make it 30'))[0]).toBe('kestrel waits for 30 jade');
    expect(labelsOf(await wait('kestrel', 30))).toEqual([]);
  });

  it.each([
    [{ number: 5, buyer: 'kestrel' }, 'Not logged: nothing to log'],
    [{ number: 5, line: 'jade' }, 'Not logged: nothing to log'],
    [{ line: 'jaed' }, 'Not logged: no line called "jaed"'],
    [{ buyer: 'nobody' }, 'Not logged: no buyer called "nobody"'],
    [{ line: 'jade', number: -1, buyer: 'kestrel' }, 'Not logged: -1 animals cannot be right'],
  ])('refuses %j in private', async (raw, title) => {
    expect(await run('waiting', raw)).toMatchObject({ private: true, card: { title } });
    expect(test.desk.store.waiting.all()).toEqual([]);
  });
});

it('is reached where an order does not fit', async () => {
  const refused = await run('sale add', { items: '90 jade', buyer: 'kestrel' });
  const form = await pushed(refused, 'Put on waiting list');
  expect(form.form?.fields.find(({ id }) => id === 'line')?.value).toBe('jade');
});

it('says who is next when a sale is cancelled', async () => {
  test.sell(60, { buyer: 'heron' });
  await wait('kestrel', 20);
  const cancelled = await run('sale cancel', { sale: '1', reason: 'changed their mind' });
  expect(linesOf(cancelled)).toContain('Waiting, jade: next kestrel, all 20 can go now');
  expect(linesOf(await pushed(cancelled, 'Waiting list'))[0]).toBe('jade: 1 waiting for 20');
});

it('is told of in the week, and before a season opens', async () => {
  await wait('kestrel', 20);
  const line = 'Waiting, jade: next kestrel, all 20 can go now';
  const voice = voiceOf(ctxOf(test));
  expect(wordsOf({ card: weeklyCard(voice, weeklyPost(test.desk)) })).toContain(line);
  const [from, to] = ['02-01', '03-21'] as MonthDay[];
  taken(setSeason(test.desk, test.by('wren'), { from, to, name: 'frost' }));
  const post = seasonPost(test.desk);
  if (post === null) throw new Error('no notice two weeks before the opening');
  const card = seasonPostCard(voice, post);
  expectPhone(card);
  expect(wordsOf({ card })).toContain(line);
  expect(labelsOf({ card })).toContain('Waiting list');
  expect(linesOf(await run('waiting', { line: 'jade' }))).toContain('Closed now; a parcel could leave Mon 22 Mar');
});
