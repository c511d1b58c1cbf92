import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.type('setup partner', { partner: { userId: 'user-wren', name: 'wren', bot: false } });
  await at.type('setup line', { line: 'orange' });
});
afterEach(() => at.close());

describe('/tub add', () => {
  it('makes six tubs of A1-A6', async () => {
    const answer = await at.type('tub add', { name: 'A1-A6', line: 'orange', litres: 25 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain('6 tubs added: A1 to A6\norange · breeding · rack A\n25 L each, 20 L net');
    expect(at.desk.store.tubs.tubs().map(({ name }) => name)).toEqual(['A1', 'A2', 'A3', 'A4', 'A5', 'A6']);
    expect((await at.tap(answer, 'Count A1')).form?.title).toBe('Count of A1');
  });

  it('of one says nothing of each', async () => {
    expect(wordsOf(await at.type('tub add', { name: 'B1', line: 'orange', litres: 25 }))).toContain('B1 added');
    expect(wordsOf(await at.type('tub add', { name: 'B2', line: 'orange', litres: 25 }))).not.toContain('each');
  });

  it.each([
    [{ name: 'A1', line: 'ornage', litres: 25 }, 'no line called "ornage"\nNear it: orange'],
    [{ name: 'A6-A1', line: 'orange', litres: 25 }, 'that range does not work'],
    [{ name: 'A1', line: 'orange', litres: 0 }, '0 L cannot be right'],
    [{ name: 'A1-A3', line: 'orange', litres: 25, rack: 'r'.repeat(2000) }, 'that name does not work'],
    [{ name: 'C1-C400', line: 'orange', litres: 25 }, 'that range does not work'],
    [{ name: 'x'.repeat(25), line: 'orange', litres: 25 }, 'that name does not work'],
  ])('of %o adds none', async (raw, words) => {
    const before = at.rows();
    const answer = await at.type('tub add', raw);
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    expect(at.rows()).toEqual(before);
  });
});

describe('/tub show and /tub list', () => {
  it('raise no alarm over what was never logged', async () => {
    await at.type('tub add', { name: 'A1-A6', line: 'orange', litres: 25 });
    at.advance({ days: 3 });
    const list = await at.type('tub list');
    expectPhone(list.card);
    expect(list.card?.title).toBe('6 tubs: 6 not read yet');
    expect(wordsOf(list)).not.toMatch(/late|act|watch/);
    const show = await at.type('tub show', { tub: 'A1' });
    expectPhone(show.card);
    expect(wordsOf(show)).toBe(
      [
        'A1: change 2 L due',
        'orange · breeding · rack A · 20 L net of 25',
        'No reading yet',
        'No change logged · next 2 L due since Tue 13 Apr',
        'Animals: not counted yet',
      ].join('\n'),
    );
  });

  it('open a tub from the list and act on it', async () => {
    await at.type('tub add', { name: 'A1-A2', line: 'orange', litres: 25 });
    const answer = await at.press({ act: 'tub-pick', args: {} }, { values: ['2'] });
    expect(labelsOf(answer)).toEqual(['Log a reading', 'Count', 'Changed 2 L']);
    expect((await at.tap(answer, 'Log a reading')).form?.title).toBe('Reading of A2');
    expect(wordsOf(await at.press({ act: 'tub-pick', args: {} }, { values: ['99'] }))).toContain('no longer there');
  });

  it('say where to begin when there is none', async () => {
    expect(wordsOf(await at.type('tub list'))).toBe('No tubs there\nNext: Add them first');
  });
});

describe('/tub edit and /tub retire', () => {
  it('say what changed, from what to what', async () => {
    await at.type('tub add', { name: 'A1', line: 'orange', litres: 25 });
    expect(wordsOf(await at.type('tub edit', { tub: 'A1', name: 'A7', litres: 30 }))).toBe(
      'A7: changed\nName A1 → A7\n25 L → 30 L\nNet 20 L → 24 L\nlogged by wren 18:50',
    );
  });

  it('write nothing where the tub stays as it was', async () => {
    await at.type('tub add', { name: 'A1', line: 'orange', litres: 25 });
    const before = at.rows();
    expect(wordsOf(await at.type('tub edit', { tub: 'A1', name: 'A1', litres: 25 }))).toBe('A1: as it was');
    expect(at.rows()).toEqual(before);
  });

  it('keep a tub with animals, and take out an empty one', async () => {
    await at.type('tub add', { name: 'A1', line: 'orange', litres: 25 });
    await at.type('count log', { tub: 'A1', saleable: 12, method: 'full' });
    const kept = await at.type('tub retire', { tub: 'A1', reason: 'leaks' });
    expectPhone(kept.card);
    expect(wordsOf(kept)).toContain(
      `Not retired: A1 holds animals\nAbout ${at.tubStock('A1').saleable} saleable by the counts`,
    );
    at.advance({ minutes: 1 });
    await at.type('count log', { tub: 'A1', saleable: 0, method: 'full' });
    const retired = await at.type('tub retire', { tub: 'A1', reason: 'leaks' });
    expect(wordsOf(retired)).toContain(
      'A1: retired\nReason: leaks\nSince today 18:51; its history stays\nlogged by wren 18:51',
    );
    expect(wordsOf(await at.type('reading log', { tub: 'A1', ph: 7 }))).toContain('Not logged: A1 is retired');
    await at.tap(await at.tap(retired, 'Undo'), 'Undo it');
    expect(wordsOf(await at.type('reading log', { tub: 'A1', ph: 7 }))).toContain('A1: fine');
  });
});

it('asks before counted animals become another line, and does it once it is said', async () => {
  await at.type('setup line', { line: 'green' });
  await at.type('tub add', { name: 'A1', line: 'orange', litres: 25 });
  await at.type('count log', { tub: 'A1', saleable: 30, method: 'full' });
  const asked = await at.type('tub edit', { tub: 'A1', line: 'green' });
  expect(wordsOf(asked)).toContain(`Stop: A1 holds ${at.tubStock('A1').saleable} orange`);
  expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toContain('orange · breeding');
  await at.tap(asked, 'They are green');
  expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toContain('green · breeding');
});
