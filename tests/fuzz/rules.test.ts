import { describe, expect, it } from 'vitest';
import type { Answer } from '../../commands/command.ts';
import { button, press } from '../../src/reply/index.ts';
import { deskAt } from '../support/desk.ts';
import { faultsOf } from './rules.ts';
import { watchDatabase } from './state.ts';

const form = { title: 'A form', press: press('sale-form', {}), fields: [] };

describe('the rules bite', () => {
  const cases: readonly [string, Answer, boolean, string][] = [
    ['an empty title', { card: { title: ' ' } }, false, 'a title is empty'],
    ['a long title', { card: { title: 'x'.repeat(61) } }, false, 'a title has 61 characters'],
    ['a lost value', { card: { title: 'A1', why: ['Nitrate NaN mg/L'] } }, false, 'a value lost its way: Nitrate NaN'],
    [
      'an empty label',
      { card: { title: 'A1', controls: [[button('', press('home', {}))]] } },
      false,
      'the service refuses it',
    ],
    ['a refusal to all', { card: { title: 'Not logged: no tub' } }, false, 'a refusal is seen by all'],
    ['an empty form', { form }, false, 'the service refuses it'],
    [
      'a form after a form',
      { form: { ...form, fields: [{ id: 'a', label: 'A', lines: 'one' }] } },
      true,
      'a form answers a form',
    ],
  ];
  it.each(cases)('on %s', (_, answer, toForm, words) => {
    expect(faultsOf(answer, toForm)).toEqual([expect.stringContaining(words)]);
  });

  it('and leave a good answer alone', () => {
    const card = { title: 'A1: fine', why: ['Nitrate 10 mg/L'], controls: [[button('Undo', press('undo-last', {}))]] };
    expect(faultsOf({ card }, false)).toEqual([]);
  });
});

it('a write by anybody is seen from outside, with the tables that it touched', () => {
  const { desk, folder, by, close } = deskAt('2027-04-13T08:00:00Z');
  const watch = watchDatabase(`${folder}/berried.db`);
  const before = { commits: watch.commits(), tables: watch.tables() };
  expect(watch.commits()).toBe(before.commits);
  desk.store.write(() => desk.store.entries.add(by('wren'), 'line', 'added line jade', desk.now()));
  expect(watch.commits()).not.toBe(before.commits);
  const changed = [...watch.tables()].filter(([name, hash]) => before.tables.get(name) !== hash);
  expect(changed.map(([name]) => name)).toEqual(['entry']);
  watch.close();
  close();
});
