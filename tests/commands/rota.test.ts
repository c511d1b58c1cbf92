import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { rota, rotaToday, tellRota } from '../../src/desk/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-05T16:50:00Z');
  await at.begin('A1-A4');
  await at.type('setup partner', { partner: { userId: 'user-alder', name: 'alder', bot: false } });
});
afterEach(() => at.close());

const wren = { name: 'wren' };
const alder = { name: 'alder' };
/** "feed A wren": what the rota has on a day of the week to come. */
const tasksOn = (on: string): string[] =>
  rota(at.desk)
    .filter((item) => item.on === on)
    .map(({ due: { chore, target }, partner }) =>
      [chore.name, target.of === 'tub' ? target.name : target.of === 'rack' ? target.rack : '', partner].join(' '),
    );
/** Days of the week to come on which a chore is, at a tub or anywhere. */
const daysOf = (name: string, tub?: string): string[] =>
  rota(at.desk)
    .filter(
      ({ due: { chore, target } }) =>
        chore.name === name && (tub === undefined || (target.of === 'tub' && target.name === tub)),
    )
    .map(({ on }) => on);

describe('two partners at the same moment', () => {
  it('tick one chore: it is logged once, and the second hears of it', async () => {
    at.advance({ days: 7 });
    const before = at.rows();
    const [first, second] = await Promise.all([
      at.type('rota done', { chore: 'feed' }, wren),
      at.type('rota done', { chore: 'feed' }, alder),
    ]);
    expect(wordsOf(first)).toContain('feed, rack A: done');
    expect(wordsOf(second)).toContain('Already done: feed\nlogged by wren');
    expect((at.rows()['chore_done'] ?? 0) - (before['chore_done'] ?? 0)).toBe(1);
  });

  it('hand it to one another: the later word holds, and the rota has it once', async () => {
    at.advance({ days: 7 });
    const to = (name: string) => ({ chore: 'look-round', partner: { userId: `user-${name}`, name, bot: false } });
    await Promise.all([at.type('rota hand-over', to('alder'), wren), at.type('rota hand-over', to('wren'), alder)]);
    expect(tasksOn('2027-04-12').filter((task) => task.startsWith('look-round'))).toEqual(['look-round  wren']);
  });
});

describe('the rota that a post told', () => {
  it('stays for today when one goes away from tomorrow on', async () => {
    at.advance({ days: 7 });
    tellRota(at.desk);
    const today = tasksOn('2027-04-12');
    await at.type('setup partner', {
      ...{ partner: { userId: 'user-alder', name: 'alder', bot: false } },
      ...{ 'away-from': '13 Apr', 'away-to': '15 Apr' },
    });
    expect(tasksOn('2027-04-12')).toEqual(today);
    expect(tasksOn('2027-04-13').every((task) => task.endsWith('wren'))).toBe(true);
  });

  it('brings nothing forward to today for what was put off', async () => {
    at.advance({ days: 7 });
    tellRota(at.desk);
    const today = tasksOn('2027-04-12');
    for (const chore of ['top-up', 'feed', 'pest look by torch']) {
      await at.type('rota later', { chore, reason: 'no time' });
    }
    const now = tasksOn('2027-04-12');
    expect(now.length).toBe(today.length - 3);
    expect(now.every((task) => today.includes(task))).toBe(true);
  });

  it('has the same answer a day later where all was done but what is left for later', async () => {
    at.advance({ days: 7 });
    for (const tub of ['A1', 'A2', 'A3', 'A4']) await at.type('change log', { tub, litres: 4 });
    at.advance({ days: 1 });
    tellRota(at.desk);
    const tomorrow = tasksOn('2027-04-14');
    for (const { due } of rotaToday(at.desk)) {
      const tub = due.target.of === 'tub' ? { tub: due.target.name } : {};
      await at.type('rota done', { chore: due.chore.name, ...tub });
    }
    at.advance({ days: 1 });
    expect(tomorrow.length).toBeGreaterThan(1);
    expect(tasksOn('2027-04-14')).toEqual(tomorrow);
  });
});

describe('who does it', () => {
  it.each([
    ['wren', 'alder'],
    ['alder', 'wren'],
  ])('is less often %s where they did most of the days before', async (much, little) => {
    await at.type('rota done', { chore: 'look-round' }, { name: little });
    for (const tub of ['A1', 'A2', 'A3', 'A4']) await at.type('change log', { tub, litres: 4 }, { name: much });
    for (const chore of ['feed', 'top-up']) await at.type('rota done', { chore }, { name: much });
    at.advance({ days: 1 });
    const minutesOf = (who: string): number =>
      rota(at.desk)
        .filter(({ partner }) => partner === who)
        .reduce((sum, { due }) => sum + due.chore.minutes, 0);
    expect(minutesOf(much)).toBeLessThan(minutesOf(little));
  });
});

describe('chores that hang on facts', () => {
  const log = (temp: number) => at.type('reading log', { tub: 'A1', temp });

  it('feed less often in cool water', async () => {
    await at.type('rota done', { chore: 'feed' });
    at.advance({ days: 1 });
    expect(daysOf('feed')).toEqual(['2027-04-07', '2027-04-09', '2027-04-11']);
    await log(20);
    at.advance({ days: 1 });
    expect(daysOf('feed')).toEqual(['2027-04-08', '2027-04-11']);
  });

  it('give powder where young were counted, and look for young where eggs are due', async () => {
    expect(daysOf('powder for young')).toEqual([]);
    await log(24);
    await at.type('count log', { tub: 'A1', saleable: 20, juveniles: 8, berried: 2 });
    await at.type('count log', { tub: 'A2', saleable: 20, juveniles: 0, berried: 0 });
    at.advance({ days: 1 });
    expect(daysOf('powder for young', 'A1').length).toBeGreaterThan(1);
    expect(daysOf('powder for young', 'A2')).toEqual([]);
    expect(daysOf('hatch due')).toEqual([]);
    at.advance({ days: 12 });
    expect(daysOf('hatch due', 'A1')).toEqual(['2027-04-18']);
    await at.type('rota done', { chore: 'hatch due', tub: 'A1' });
    at.advance({ days: 1 });
    expect(daysOf('hatch due')).toEqual([]);
  });

  it('keep what is known of young where only saleable ones were caught since', async () => {
    await at.type('count log', { tub: 'A1', saleable: 20, juveniles: 8 });
    at.advance({ days: 2 });
    await at.type('count passes', { tub: 'A1', first: 12, second: 5 });
    at.advance({ days: 1 });
    expect(daysOf('powder for young', 'A1').length).toBeGreaterThan(1);
  });

  it('look over a tub on the last day of its hold', async () => {
    await at.type('hold', { tub: 'A3', reason: 'quarantine', until: '9 Apr' });
    expect(daysOf('end of quarantine')).toEqual(['2027-04-09']);
    at.advance({ days: 4 });
    const done = await at.type('rota done', { chore: 'end of quarantine' });
    expectPhone(done.card);
    expect(wordsOf(done)).toBe('end of quarantine, A3: done\nlogged by wren 18:50');
    at.advance({ days: 1 });
    expect(daysOf('end of quarantine')).toEqual([]);
  });

  it('watch for claims from when a parcel can have arrived until it is too late to report', async () => {
    await at.type('setup business', { region: 'NL' });
    await at.type('count log', { tub: 'A1', saleable: 60 });
    await at.type('sale add', { items: '5 orange', buyer: 'heron', 'dispatch-on': '6 Apr' });
    await at.type('sale paid', { sale: '1' });
    expect(daysOf('watch for claims')).toEqual([]);
    at.advance({ days: 1 });
    await at.type('dispatch sent', { sale: '1' });
    expect(daysOf('watch for claims')).toEqual(['2027-04-07', '2027-04-08', '2027-04-09']);
    at.advance({ days: 1 });
    await at.type('dispatch arrived', { sale: '1', dead: 0 });
    expect(daysOf('watch for claims')).toEqual([]);
  });
});

describe('/chore', () => {
  it('lists what each hangs on, on a phone', async () => {
    const list = await at.type('chore list');
    expectPhone(list.card);
    const words = wordsOf(list);
    expect(words).toContain('20 chores on the rota');
    expect(words).toContain('feed: every 2 days, longer in cool water, 6 min a rack');
    expect(words).toContain('moss trim: warm months, every 42 days, 10 min a tub');
    expect(words).toContain('powder for young: every 3 days where young are, 1 min a tub');
    expect(words).toContain('hatch due: when eggs are due to hatch, 2 min a tub');
    expect(words).toContain('end of quarantine: on the last day of a hold, 5 min a tub');
    expect(words).toContain('watch for claims: every day while a claim may come, 3 min');
  });

  it('takes a season and what it hangs on, and changes them', async () => {
    const raw = { name: 'cover vents', 'every-days': 7, minutes: 4, scope: 'rack', season: 'cool' };
    const added = await at.type('chore add', raw);
    expectPhone(added.card);
    expect(wordsOf(added)).toContain('cool months, every 7 days, 4 min a rack · shared');
    const edited = await at.type('chore edit', { chore: 'cover vents', season: 'all', 'depends-on': 'warmth' });
    expect(wordsOf(edited)).toContain('every 7 days, longer in cool water, 4 min a rack · shared');
    const nothing = await at.type('chore edit', { chore: 'cover vents' });
    expectPhone(nothing.card);
    expect(wordsOf(nothing)).toContain('season');
  });
});
