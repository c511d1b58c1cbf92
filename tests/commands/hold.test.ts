import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin('A1-A2');
  await at.type('count log', { tub: 'A1', saleable: 30, method: 'full' });
});
afterEach(() => at.close());

describe('/hold', () => {
  it('takes a tub off sale until a day, in words, and is lifted by a button', async () => {
    const free = at.free();
    expect(free).toBeGreaterThan(10);
    const answer = await at.type('hold', { tub: 'A1', reason: 'medicine', until: '20 Apr' });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toBe(
      ['A1: off sale to Tue 20 Apr', 'Reason: medicine', 'orange: 0 free to promise now', 'logged by wren 18:50'].join(
        '\n',
      ),
    );
    expect(labelsOf(answer)).toEqual(['Lift the hold', 'Stock', 'Undo']);
    expect(wordsOf(await at.tap(answer, 'Lift the hold', { name: 'alder' }))).toContain(
      `A1: back on sale\norange: ${free} free to promise now\nlogged by alder`,
    );
  });

  it('without an end says so, and until:now lifts it', async () => {
    expect(wordsOf(await at.type('hold', { tub: 'A1', reason: 'trouble' }))).toContain(
      'A1: off sale until you lift it',
    );
    expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toContain('Off sale until lifted: trouble');
    expect(wordsOf(await at.type('hold', { tub: 'A1', reason: 'well', until: 'now' }))).toContain('A1: back on sale');
  });

  it('that is not there cannot be lifted, and nothing is left behind', async () => {
    const before = at.rows();
    const answer = await at.type('hold', { tub: 'A1', reason: 'well', until: 'now' });
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toBe('A1 is already on sale\nNothing was logged');
    expect(at.rows()).toEqual(before);
  });

  it.each([
    ['yesterday', 'Mon 12 Apr is past'],
    ['when it is well', 'the day was not understood'],
  ])('until %s is refused and leaves nothing behind', async (until, words) => {
    const before = at.rows();
    expect(wordsOf(await at.type('hold', { tub: 'A1', reason: 'medicine', until }))).toContain(`Not logged: ${words}`);
    expect(at.rows()).toEqual(before);
  });
});
