import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin('A1-A2');
  await at.type('setup line', { line: 'green' });
  await at.type('tub add', { name: 'B1', line: 'green', litres: 25 });
  await at.type('count log', { tub: 'A1', saleable: 20, method: 'full' });
  at.advance({ minutes: 1 });
});
afterEach(() => at.close());

describe('/move', () => {
  it('says what is now where', async () => {
    const before = at.tubStock('A1').saleable ?? 0;
    const answer = await at.type('move', { from: 'A1', to: 'A2', number: 5 });
    expectPhone(answer.card);
    expect(Math.abs(before - 20)).toBeLessThanOrEqual(2);
    expect(wordsOf(answer)).toContain(`5 orange: A1 → A2\nSaleable now: A1 ${before - 5} · A2 not counted yet`);
  });

  it.each([
    [{ to: 'A2', number: 60 }, 'A1 holds {most}'],
    [{ to: 'A2', number: 0 }, '0 animals cannot be right'],
    [{ to: 'A1', number: 3 }, 'A1 twice'],
    [{ to: 'A9', number: 3 }, 'no tub called "A9"'],
  ])('of %o is refused and leaves nothing behind', async (raw, words) => {
    const before = at.rows();
    const answer = await at.type('move', { from: 'A1', ...raw });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain(`Not logged: ${words.replace('{most}', String(at.tubStock('A1').range?.high))}`);
    expect(at.rows()).toEqual(before);
  });

  it('takes as many as the tub may well hold, and not one more', async () => {
    const most = at.tubStock('A1').range?.high ?? 0;
    expect(wordsOf(await at.type('move', { from: 'A1', to: 'A2', number: most + 1 }))).toContain('Not logged');
    expect(at.rows()['animal_move']).toBe(0);
    expect(wordsOf(await at.type('move', { from: 'A1', to: 'A2', number: most }))).toContain(`${most} orange: A1 → A2`);
    expect(at.rows()['animal_move']).toBe(1);
  });

  it('of one line into another is asked about before anything is written', async () => {
    const before = at.rows();
    const asked = await at.type('move', { from: 'A1', to: 'B1', number: 5 });
    expectPhone(asked.card);
    expect(wordsOf(asked)).toContain('Stop: B1 is green\n5 orange from A1 would mix two lines');
    expect(labelsOf(asked)).toEqual(['Mix them all the same', 'Leave it']);
    expect(at.rows()).toEqual(before);
    const mixed = await at.tap(asked, 'Mix them all the same');
    expectPhone(mixed.card);
    expect(wordsOf(mixed)).toContain('the lines are mixed from now on');
    expect(at.rows()['animal_move']).toBe(1);
  });
});
