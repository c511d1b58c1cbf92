import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin('A1-A6', 'orange', 40);
});
afterEach(() => at.close());

const latest = () => at.desk.store.animals.latestCount(1);

describe('/count passes', () => {
  it('gives the estimate with its range, what a pass takes, and what one more would tell', async () => {
    await at.type('count log', { tub: 'A1', saleable: 130, method: 'full' });
    at.advance({ minutes: 1 });
    const answer = await at.type('count passes', { tub: 'a1', first: 79, second: 28 });
    expectPhone(answer.card);
    expect(answer.private).toBeUndefined();
    const lines = wordsOf(answer).split('\n');
    expect(lines.slice(0, 3)).toEqual([
      'A1: 122 saleable (115–141)',
      'Counted by passes: 79, 28; each took about 65 %',
      'One more pass: about 10 in the net, then 119–129 in all',
    ]);
    expect(lines[3]).toMatch(/^Likely 1[23]\d \(1\d\d–1\d\d\) in the tub; before: 1[23]\d \(1\d\d–1\d\d\)$/);
    expect(lines[4]).toMatch(/^orange: 1[012]\d free to promise now$/);
    expect(lines.slice(5)).toEqual([
      'logged by wren 18:51',
      'Next: Net once more with the same effort, before you put them back',
    ]);
    expect(labelsOf(answer)).toEqual(['Add the third pass', 'Stock', 'Undo']);
    expect(latest()).toMatchObject({ saleable: 122, method: 'passes', passes: [79, 28], juveniles: null });
    expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toMatch(
      /1[23]\d \(1\d\d–1\d\d\) saleable, counted by passes today \(wren\): 122/,
    );
  });

  it('takes the next pass in the form, with those before filled in, and narrows', async () => {
    const two = await at.type('count passes', { tub: 'A1', first: 79, second: 28 });
    const { form } = await at.tap(two, 'Add the third pass');
    expect(form?.fields.map(({ value }) => value)).toEqual(['79', '28', undefined, undefined]);
    at.advance({ minutes: 5 });
    const three = await at.press(
      { act: 'passes-send', args: { tub: 1 } },
      { fields: { first: '79', second: '28', third: '10', fourth: '' } },
    );
    expectPhone(three.card);
    expect(wordsOf(three)).toContain('A1: 121 saleable (119–129)\nCounted by passes: 79, 28, 10; each took about 66 %');
    expect(wordsOf(three)).toContain('One more pass would tell little more');
    expect(wordsOf(three)).not.toContain('Next:');
    expect(latest()).toMatchObject({ saleable: 121, passes: [79, 28, 10] });
  });

  it('says when nobody is left, and after four passes asks for no more', async () => {
    expect(wordsOf(await at.type('count passes', { tub: 'A1', first: 40, second: 0 }))).toContain(
      'A1: 40 saleable\nCounted by passes: 40, 0; each took about 100 %\nNone is likely to be left in the tub',
    );
    const four = await at.type('count passes', { tub: 'A2', first: 20, second: 12, third: 8, fourth: 5 });
    expectPhone(four.card);
    expect(labelsOf(four)).toEqual(['Stock', 'Undo']);
    expect(wordsOf(four)).not.toContain('One more pass');
  });

  it('points out passes that do not fall evenly', async () => {
    const answer = await at.type('count passes', { tub: 'A1', first: 40, second: 5, third: 25 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain('Next: Check that each pass had the same effort; else count again');
  });

  it('of an old day says that a newer count stands', async () => {
    await at.type('count log', { tub: 'A1', saleable: 60 });
    const answer = await at.type('count passes', { tub: 'A1', first: 79, second: 28, when: 'yesterday 18:00' });
    expect(wordsOf(answer)).toContain('A newer count stands: 60, today 18:50');
    expect(wordsOf(answer)).toContain('logged by wren 18:50, for yesterday 18:00');
    expect(latest()).toMatchObject({ saleable: 60, passes: null });
  });

  it('is undone like other counts', async () => {
    await at.type('count log', { tub: 'A1', saleable: 60 });
    at.advance({ minutes: 1 });
    const asked = await at.tap(await at.type('count passes', { tub: 'A1', first: 79, second: 28 }), 'Undo');
    expect(wordsOf(asked)).toContain('A1 counted 122 saleable (passes 79, 28)');
    const [label = ''] = labelsOf(asked);
    await at.tap(asked, label);
    expect(latest()).toMatchObject({ saleable: 60, method: 'glance' });
  });
});

describe('passes that tell no number', () => {
  it.each([
    [{ first: 72, second: 56 }, 'the decline is too weak\nA1: 72, 56\n128 came out; 210 to 999 may have been there'],
    [{ first: 20, second: 24 }, 'the catches do not go down\nA1: 20, 24\nAt least 44 are there'],
    [{ first: 5, second: 7, third: 8 }, 'the catches do not go down'],
    [{ first: 0, second: 9 }, 'all came in the last pass\nA1: 0, 9'],
    [{ first: 0, second: 0 }, 'nothing was caught\nA1: 0, 0'],
  ])('%j are not logged, and one more can be added', async (catches, words) => {
    const before = at.rows();
    const answer = await at.type('count passes', { tub: 'A1', ...catches });
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    expect(wordsOf(answer)).toContain('Next: Net once more with the same effort');
    expect(at.rows()).toEqual(before);
    const nth = Object.keys(catches).length === 2 ? 'third' : 'fourth';
    const { form } = await at.tap(answer, `Add the ${nth} pass`);
    expect(form?.fields.slice(0, 2).map(({ value }) => value)).toEqual([String(catches.first), String(catches.second)]);
  });

  it('after four ask for a full count', async () => {
    const answer = await at.type('count passes', { tub: 'A1', first: 5, second: 6, third: 5, fourth: 7 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain('Next: Strip the tub out and log a full count');
    expect(labelsOf(answer)).toEqual(['Log the 23 caught', 'Leave it', 'Count A1']);
  });

  it('leave what was caught to be logged, for the moment that was meant', async () => {
    const asked = await at.type('count passes', { tub: 'A1', first: 20, second: 24, when: 'yesterday 18:00' });
    at.advance({ hours: 8 });
    await at.tap(asked, 'Log the 44 caught');
    expect(latest()).toMatchObject({ saleable: 44, method: 'glance', at: '2027-04-12T16:00:00.000Z' });
  });
});

describe('slips in passes', () => {
  it.each([
    [{ first: -3, second: 2 }, '-3 in pass 1 cannot be right\nIt goes from 0 to 5000, in whole numbers'],
    [{ first: 30, second: 10_000 }, '10000 in pass 2 cannot be right'],
    [{ first: 30, second: 12, third: 4.5 }, '4.5 in pass 3 cannot be right'],
    [{ first: 30, second: 12, fourth: 1 }, 'the third pass is missing\nA fourth was given'],
    [{ first: 30, second: 12, when: 'tomorrow 18:00' }, 'tomorrow 18:00 is still to come'],
    [{ first: 30, second: 12, tub: 'A9' }, 'no tub called "A9"'],
  ])('%j are not logged', async (typed, words) => {
    const before = at.rows();
    const answer = await at.type('count passes', { tub: 'A1', ...typed });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    expect(at.rows()).toEqual(before);
  });

  it('of more than a tub usually holds are asked about', async () => {
    const asked = await at.type('count passes', { tub: 'A1', first: 700, second: 200 });
    expectPhone(asked.card);
    expect(wordsOf(asked)).toContain('Not logged yet: 980 in A1?');
    await at.tap(asked, 'Yes, 980');
    expect(latest()).toMatchObject({ saleable: 980, passes: [700, 200] });
  });
});

describe('the form of passes', () => {
  const send = (fields: Record<string, string>) =>
    at.press({ act: 'passes-send', args: { tub: 1 } }, { fields: { third: '', fourth: '', ...fields } });

  it.each([
    [{ first: '79', second: '' }, 'the second pass is missing'],
    [{ first: 'many', second: '28' }, 'a number is not understood\nNot a number: first "many"'],
    [{ first: '79', second: '28,5' }, '28.5 in pass 2 cannot be right'],
    [{ first: '20', second: '24' }, 'the catches do not go down'],
  ])('of %j comes back as it was typed', async (fields, words) => {
    const answer = await send(fields);
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    const { form } = await at.tap(answer, 'Correct it');
    expect(form?.fields.map(({ value }) => value)).toEqual([fields.first, fields.second, '', '']);
  });

  it('is reached where a count was not expected, and from the form of a count', async () => {
    await at.type('count log', { tub: 'A1', saleable: 80, method: 'full' });
    const far = await at.type('count log', { tub: 'A1', saleable: 8 });
    expectPhone(far.card);
    expect((await at.tap(far, 'Count by passes')).form?.title).toBe('Passes of A1');
    await at.type('count log', { tub: 'A2', saleable: 80, method: 'full' });
    expect(labelsOf(await at.type('count log', { tub: 'A2', saleable: 75, method: 'full' }))).toEqual([
      'Stock',
      'Undo',
    ]);
    const asked = await at.press(
      { act: 'count-send', args: { tub: 1 } },
      { fields: { saleable: '12', juveniles: '', berried: '', method: 'passes' } },
    );
    expect(labelsOf(asked)).toEqual(['Correct it', 'Count by passes']);
  });

  it('of a tub that is gone says so, and takes no more than four from a button', async () => {
    expect(wordsOf(await at.press({ act: 'passes-form', args: { tub: 99, caught: '' } }))).toContain('no longer there');
    const { form } = await at.press({ act: 'passes-form', args: { tub: 1, caught: '1-2-x-3-4-5' } });
    expect(form?.fields.map(({ value }) => value)).toEqual(['1', '2', '3', '4']);
  });
});

describe('a count at the dish', () => {
  it('stands for more animals than were seen, more surely with full counts beside', async () => {
    const alone = await at.type('count log', { tub: 'A1', saleable: 12, method: 'dish' });
    expectPhone(alone.card);
    const width = (words: string): number => {
      const [, low = '', high = ''] = /Likely \d+ \((\d+)–(\d+)\) in the tub/.exec(words) ?? [];
      return Number(high) / Number(low);
    };
    expect(width(wordsOf(alone))).toBeGreaterThan(2);
    at.advance({ hours: 2 });
    await at.type('count log', { tub: 'A1', saleable: 40, method: 'full' });
    for (let round = 0; round < 4; round += 1) {
      at.advance({ days: 10 });
      await at.type('count log', { tub: 'A1', saleable: 13, method: 'dish' });
      at.advance({ hours: 2 });
      await at.type('count log', { tub: 'A1', saleable: 41, method: 'full' });
    }
    at.advance({ days: 30 });
    const checked = await at.type('count log', { tub: 'A1', saleable: 13, method: 'dish' });
    expectPhone(checked.card);
    expect(width(wordsOf(checked))).toBeLessThan(width(wordsOf(alone)));
    expect(labelsOf(checked)).toEqual(['Stock', 'Undo']);
  });

  it('that was not expected leads to passes', async () => {
    await at.type('count log', { tub: 'A1', saleable: 300, method: 'full' });
    at.advance({ days: 3 });
    const answer = await at.type('count log', { tub: 'A1', saleable: 4, method: 'dish' });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toMatch(/Not expected: \d+ to \d+ were/);
    expect(labelsOf(answer)).toEqual(['Stock', 'Count by passes', 'Undo']);
  });
});
