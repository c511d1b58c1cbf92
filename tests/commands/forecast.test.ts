import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin('A1-A2');
});
afterEach(() => at.close());

const count = async (): Promise<void> => {
  for (const tub of ['A1', 'A2']) {
    await at.type('count log', { tub, saleable: 80, juveniles: 60, berried: 10, method: 'full' });
  }
};

const asked = async (raw: Record<string, unknown> = {}) => {
  const before = at.rows();
  const answer = await at.type('forecast', { line: 'orange', ...raw });
  expectPhone(answer.card);
  expect(at.rows()).toEqual(before);
  return answer;
};

describe('/forecast', () => {
  it('says what to count first where nothing is counted', async () => {
    const answer = await asked();
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toContain('orange is not counted yet\nNot counted: A1 and A2');
    expect((await at.tap(answer, 'Count A1')).form?.title).toBe('Count of A1');
  });

  it('answers up to the re-opening, to both, with a chart, and leads on', async () => {
    await count();
    await at.type('season', { 'close-from': '15 Nov', 'close-to': '10 Mar' });
    const answer = await asked();
    expect(answer.private).toBeUndefined();
    expect(answer.card?.title).toMatch(/^orange: \d+ a week until Sat 11 Mar 2028$/);
    expect(answer.card?.why).toHaveLength(5);
    expect(answer.card?.chart?.series[0]?.points.length).toBeGreaterThan(10);
    expect(labelsOf(answer)).toEqual(['New sale', expect.stringMatching(/^Count /), 'Stock']);
    expect(wordsOf(await at.tap(answer, 'Stock'))).toContain('orange: ');
  });

  it('takes a day in words and sales a week', async () => {
    await count();
    expect((await asked({ until: '1 Aug', 'weekly-sales': 2.5 })).card?.title).toMatch(
      /^orange bears 2.5 a week until Sun 1 Aug$/,
    );
    expect((await asked({ until: '2027-08-01', 'weekly-sales': 400 })).card?.title).toMatch(
      /^orange: 400 a week is too many, bears \d+$/,
    );
    expect(wordsOf(await asked({ until: '1 Aug', 'weekly-sales': 0 }))).toContain('\nNothing sold: ');
  });

  it('works for a line of one tub', async () => {
    await at.type('setup line', { line: 'green' });
    await at.type('tub add', { name: 'G1', line: 'green', litres: 25 });
    await at.type('count log', { tub: 'G1', saleable: 30 });
    expect((await asked({ line: 'green' })).card?.why).toHaveLength(5);
  });

  it.each([
    [
      { 'weekly-sales': -3 },
      'Not foreseen: -3 a week cannot be right\nSales of a line go from 0 to 1000 animals a week',
    ],
    [{ 'weekly-sales': 10_000 }, 'Not foreseen: 10000 a week cannot be right'],
    [{ until: '2026-12-01' }, 'Not foreseen: Tue 1 Dec is past'],
    [{ until: 'yesterday' }, 'Not foreseen: Mon 12 Apr is past'],
    [{ until: 'Thu' }, 'Not foreseen: Thu 15 Apr is too near\nA forecast goes a week ahead and further\nWhat may be'],
    [
      { until: '2029-04-14' },
      'Not foreseen: Sat 14 Apr 2029 is too far\nTwo years ahead the range says nothing any more',
    ],
    [{ until: 'whenever' }, 'the day was not understood'],
    [{ line: 'orang' }, 'no line called "orang"'],
  ])('answers %o for the asker alone', async (raw, words) => {
    await count();
    const answer = await asked(raw);
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toContain(words);
  });

  it('offers the nearest day, and sales as now', async () => {
    await count();
    expect((await at.tap(await asked({ until: '2036-01-01' }), 'Until Fri 13 Apr 2029')).card?.title).toContain(
      'until Fri 13 Apr 2029',
    );
    expect((await at.tap(await asked({ 'weekly-sales': -3 }), 'Sales as now')).card?.title).toMatch(/a week until/);
  });

  it('says that nothing of the line is on sale', async () => {
    await count();
    for (const tub of ['A1', 'A2']) await at.type('hold', { tub, reason: 'medicine' });
    expect(wordsOf(await asked())).toContain('no orange is on sale\nOff sale or kept apart: A1 and A2');
  });
});

describe('the ways to a forecast', () => {
  it('are the stock of a line and the closed windows', async () => {
    await count();
    const stock = await at.type('stock', { line: 'orange' });
    expect((await at.tap(stock, 'Forecast')).card?.title).toMatch(/^orange: /);
    const season = await at.type('season', { 'close-from': '15 Nov', 'close-to': '10 Mar' });
    expect((await at.tap(season, 'Forecast')).card?.title).toMatch(/^orange: /);
    await at.type('setup line', { line: 'green' });
    const pick = await at.tap(season, 'Forecast');
    expect(pick).toMatchObject({ private: true, card: { title: 'Forecast of which line?' } });
    const picked = await at.press({ act: 'forecast-picked', args: {} }, { values: ['1'] });
    expect(picked.card?.title).toMatch(/^orange: /);
    expect(await at.press({ act: 'forecast', args: { line: 99 } })).toMatchObject({ private: true });
    expect(await at.press({ act: 'stock-line', args: { line: 99 } })).toMatchObject({ private: true });
  });
});
