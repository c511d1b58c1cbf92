// What the search found once, kept as it was typed.
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Answer, Ctx } from '../../commands/command.ts';
import { demoCommands, handle } from '../../commands/index.ts';
import { runLeaf } from '../../commands/run.ts';
import { keepDraft } from '../../src/desk/index.ts';
import { press } from '../../src/reply/index.ts';
import { parseSheet, parseWeekdays } from '../../src/words/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { faultsOf } from './rules.ts';

let test: TestDesk;
beforeEach(() => {
  test = deskAt('2027-04-13T08:00:00Z');
});
afterEach(() => test.close());

const context = (): Ctx => ({
  desk: test.desk,
  by: test.by('wren'),
  owner: true,
  now: test.desk.now(),
  keepPhoto: async () => ({ ok: false, cause: 'no photos here' }),
  demoClock: null,
});

function command(path: string, options: Readonly<Record<string, unknown>>): Promise<Answer> {
  const leaf = demoCommands.flatMap(({ leaves }) => leaves).find((known) => known.path === path);
  if (leaf === undefined) throw new Error(`no command /${path}`);
  return runLeaf(leaf, options, context());
}

it.each(['D1-D3', "wren's", 'A#1', 'A.1', '(new)', '🦐 1'])('a tub called %s has its line on the sheet', (name) => {
  expect(parseSheet(`${name} no3 20`, [name, 'A1'])).toEqual([
    { text: `${name} no3 20`, tub: name, values: { nitrateMgL: 20 } },
  ]);
});

it.each(['__proto__', 'constructor', 'toString'])('"%s" is no weekday', (text) => {
  expect(parseWeekdays(text)).toMatchObject({ ok: false });
});

it('a long name of a rack that is not there leaves a title that fits', async () => {
  await command('setup line', { line: 'jade' });
  await command('tub add', { name: 'A1', line: 'jade', litres: 30 });
  expect(faultsOf(await command('reading sheet', { rack: '\\'.repeat(301) }), false)).toEqual([]);
});

it('a button of a question that is gone does not run what took its number', async () => {
  const draft = keepDraft(test.desk, { path: 'sale-form', raw: { fields: { items: '20 jade' } }, patches: [] });
  expect(await handle(press('again', { draft, choice: 0 }), context())).toMatchObject({ private: true });
  const question = keepDraft(test.desk, { path: 'stock', raw: { key: 'k' }, patches: [{}] });
  expect(await handle(press('form-again', { draft: question }), context())).toMatchObject({ private: true });
});
