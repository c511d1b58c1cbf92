import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin();
});
afterEach(() => at.close());

describe('/count log', () => {
  it('says what was believed before and is now, and what may be promised', async () => {
    await at.type('count log', { tub: 'A1', saleable: 42, juveniles: 12, berried: 3, method: 'full' });
    at.advance({ minutes: 1 });
    const answer = await at.type('count log', { tub: 'A1', saleable: 38 });
    expectPhone(answer.card);
    const lines = wordsOf(answer).split('\n');
    expect(lines.slice(0, 2)).toEqual(['A1: 38 saleable orange', 'counted at a glance · 1.9 a litre']);
    expect(lines[2]).toMatch(/^Likely 4\d \(\d+–\d+\) in the tub; before: 4\d \(\d+–\d+\)$/);
    expect(lines[3]).toMatch(/^orange: (2\d|3[01]) free to promise now$/);
    expect(lines[4]).toBe('logged by wren 18:51');
  });

  it('of an old day says that the newer one stands', async () => {
    await at.type('count log', { tub: 'A1', saleable: 40, method: 'full' });
    expect(wordsOf(await at.type('count log', { tub: 'A1', saleable: 90, when: 'yesterday' }))).toMatch(
      /A newer count stands: 40, today 18:50\norange: (2\d|3[0-5]) free to promise now/,
    );
  });

  it('that was not expected is kept, and says what was', async () => {
    await at.type('count log', { tub: 'A1', saleable: 40, method: 'full' });
    at.advance({ days: 2 });
    const answer = await at.type('count log', { tub: 'A1', saleable: 12, method: 'full' });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toMatch(/Not expected: 3\d to [45]\d were; the count is kept and believed/);
  });

  it('of 0 animals is an answer, of 10 000 is not', async () => {
    expect(wordsOf(await at.type('count log', { tub: 'A1', saleable: 0 }))).toContain('A1: 0 saleable orange');
    const before = at.rows();
    const refused = await at.type('count log', { tub: 'A1', saleable: 10_000 });
    expectPhone(refused.card);
    expect(wordsOf(refused)).toContain('10000 saleable cannot be right\nIt goes from 0 to 5000, in whole numbers');
    expect(at.rows()).toEqual(before);
  });

  it('of more than usual is asked about, and logged for the moment of the question', async () => {
    const before = at.rows();
    const asked = await at.type('count log', { tub: 'A1', saleable: 1000 });
    expectPhone(asked.card);
    expect(wordsOf(asked)).toContain('Not logged yet: 1000 in A1?\n50 a litre in 20 L; 2 to 5 is usual');
    expect(labelsOf(asked)).toEqual(['Yes, 1000', 'Leave it']);
    expect(at.rows()).toEqual(before);
    at.advance({ hours: 2 });
    await at.tap(asked, 'Yes, 1000');
    expect(at.desk.store.animals.latestCount(1)).toMatchObject({ saleable: 1000, at: '2027-04-13T16:50:00.000Z' });
  });
});

describe('the form of a count', () => {
  const send = (fields: Record<string, string>) =>
    at.press(
      { act: 'count-send', args: { tub: 1 } },
      { fields: { juveniles: '', berried: '', method: 'glance', ...fields } },
    );

  it('logs what was filled in', async () => {
    expect(wordsOf(await send({ saleable: ' 12 ', juveniles: '40', method: 'Full' }))).toContain(
      'counted in full · 40 juveniles',
    );
  });

  it.each([
    [{ saleable: '' }, 'saleable is missing'],
    [{ saleable: '1,000' }, 'a number is not understood\nNot a number: saleable "1,000"'],
    [{ saleable: 'many' }, 'a number is not understood'],
    [{ saleable: '12', method: 'ful' }, 'which way was it counted?\nTyped: "ful"\nNext: Write full, dish or glance'],
    [{ saleable: '12,5' }, '12.5 saleable cannot be right'],
  ])('of %o is refused, and comes back as it was typed', async (fields, words) => {
    const before = at.rows();
    const answer = await send(fields);
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    expect(at.rows()).toEqual(before);
    expect((await at.tap(answer, 'Correct it')).form?.fields[0]?.value).toBe(fields.saleable);
  });
});

describe('/loss', () => {
  it('comes off what is believed, and three in a week are an act', async () => {
    await at.type('count log', { tub: 'A2', saleable: 18, method: 'full' });
    at.advance({ minutes: 1 });
    expect(wordsOf(await at.type('loss', { tub: 'A2', number: 1 }))).toMatch(
      /A2: 1 found dead\nAbout 1[678] saleable left/,
    );
    const many = await at.type('loss', { tub: 'A2', number: 3, cause: 'white ring' });
    expectPhone(many.card);
    expect(wordsOf(many)).toMatch(
      /A2: act, 3 found dead\nCause: white ring\n4 in seven days\nAbout 1[3-6] saleable left/,
    );
  });

  it.each([
    [0, /Not logged: 0 animals cannot be right/],
    [10_000, /Not logged: 10000 animals cannot be right/],
    [300, /Not logged: A2 holds [12]\d at most\n300 were typed; it was counted today 18:50/],
  ])('of %d leaves nothing behind', async (number, words) => {
    await at.type('count log', { tub: 'A2', saleable: 18, method: 'full' });
    const before = at.rows();
    const answer = await at.type('loss', { tub: 'A2', number });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toMatch(words);
    expect(at.rows()).toEqual(before);
  });
});

describe('/stock', () => {
  it('says not counted yet and never 0 before the first count', async () => {
    expect(wordsOf(await at.type('stock'))).toContain('orange: not counted yet');
    await at.type('setup line', { line: 'green' });
    await at.type('tub add', { name: 'B1', line: 'green', litres: 25 });
    const answer = await at.type('stock');
    expectPhone(answer.card);
    expect(answer.card?.title).toBe('Stock: not counted yet');
    expect(wordsOf(answer)).not.toMatch(/\b0 free/);
  });

  it('looks ahead, but not back', async () => {
    await at.type('count log', { tub: 'A1', saleable: 40, method: 'full' });
    const ahead = await at.type('stock', { line: 'orange', on: '1 May' });
    expectPhone(ahead.card);
    expect(wordsOf(ahead)).toMatch(/orange: (2\d|3\d) free to promise on Sat 1 May/);
    expect(wordsOf(ahead)).toContain('As foreseen by season and counts');
    expect(wordsOf(await at.type('stock', { on: '2027-04-12' }))).toContain('Mon 12 Apr is past');
    expect(wordsOf(await at.type('stock', { line: 'oragne' }))).toContain('no line called "oragne"\nNear it: orange');
  });
});
