import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { numberIn, publishedTable } from '../published/table.ts';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, linesOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T08:00:00Z');
  await at.begin('A1-A12');
});
afterEach(() => at.close());

const say = async (path: string, raw: Record<string, unknown> = {}) => {
  const answer = await at.type(path, raw);
  expectPhone(answer.card);
  return wordsOf(answer);
};
const row = async (path: string, tub: string) =>
  ((await at.type(path)).card?.table ?? []).find((line) => line.startsWith(`${tub} `));

describe.each([
  ['ammonia', { ammonia: 2, ph: 8, temp: 24 }, 'ammonia 2 mg/L', { ammonia: 0 }],
  ['nitrite', { nitrite: 2 }, 'nitrite 2 mg/L', { nitrite: 0 }],
])('harmful %s', (name, harmful, shown, harmless) => {
  it('is hidden by no later reading of something else', async () => {
    await at.type('reading log', { tub: 'A3', ...harmful });
    at.advance({ minutes: 10 });
    const said = await say('reading log', { tub: 'A3', temp: 24, nitrate: 10 });
    expect(said).toMatch(new RegExp(`^A3: act, ${shown}\n`));
    expect(said).toMatch(new RegExp(`^${shown}, read today 10:00; not read since$`, 'im'));
    expect(said).toContain('Next: Change 5 L now, stop feeding, air up, test again tomorrow');
    expect(await say('tub show', { tub: 'A3' })).toMatch(new RegExp(`^A3: act, ${shown}\n`));
    expect(await row('tub list', 'A3')).toContain(`act, ${shown}`);
    expect(await say('change plan', { tub: 'A3' })).toMatch(/^A3: change 5 L today/);
    expect(await row('change plan', 'A3')).toContain('act');
  });

  it('is watched after a change, until it is tested again', async () => {
    await at.type('reading log', { tub: 'A3', ...harmful });
    at.advance({ minutes: 10 });
    expect(await say('change log', { tub: 'A3' })).toContain(`Next: Test ${name} again tomorrow`);
    expect(await say('tub show', { tub: 'A3' })).toMatch(
      new RegExp(`^A3: watch, changed, test ${name} again\n(.*\n)*Next: Test ${name} again$`),
    );
    expect(await row('tub list', 'A3')).toContain(`watch, test ${name} again`);
    const plan = await say('change plan', { tub: 'A3' });
    expect(plan).toContain('changed since, not tested again');
    expect(plan).toContain(`Next: Test ${name} again`);
    at.advance({ hours: 1 });
    expect(await say('reading log', { tub: 'A3', gh: 8 })).toMatch(
      new RegExp(`^A3: watch, changed, test ${name} again\n`),
    );
    at.advance({ hours: 20 });
    expect(await say('reading log', { tub: 'A3', ...harmful })).toMatch(new RegExp(`^A3: act, ${shown}\n`));
    at.advance({ hours: 1 });
    expect(await say('reading log', { tub: 'A3', ...harmless })).toMatch(/^A3: fine/);
    expect(await row('tub list', 'A3')).not.toContain('act');
  });

  it('of long ago names its age and asks for a test', async () => {
    await at.type('reading log', { tub: 'A3', ...harmful });
    at.advance({ days: 20 });
    const said = await say('tub show', { tub: 'A3' });
    expect(said).toMatch(new RegExp(`^A3: act, ${shown} 20 days ago\n`));
    expect(said).toContain(`Next: Test ${name} now; if it is still there, change 5 L at once`);
    expect(await row('tub list', 'A3')).toContain(`act, ${name} 20 days old`);
  });

  it('stands over one of the same moment, and over a change of before', async () => {
    await at.type('change log', { tub: 'A3' });
    await at.type('reading log', { tub: 'A3', ...harmful });
    await at.type('reading log', { tub: 'A3', gh: 8 });
    expect(await row('tub list', 'A3')).toContain(`act, ${shown}`);
  });
});

describe('first aid', () => {
  it('is not questioned for a change of before, and says what the two swap', async () => {
    await at.type('change log', { tub: 'A1', percent: 25 });
    at.advance({ days: 1 });
    const read = await at.type('reading log', { tub: 'A1', ammonia: 2, ph: 8, temp: 24 });
    at.advance({ minutes: 1 });
    const changed = await at.tap(read, 'Changed 5 L');
    expectPhone(changed.card);
    expect(wordsOf(changed)).toContain('A1: 5 L changed');
    expect(wordsOf(changed)).toContain('With the 5 L of yesterday 10:00 the two swap 44 %');
    expect(wordsOf(changed)).toContain('Next: Test ammonia again tomorrow');
  });

  it('logged by both is questioned the second time', async () => {
    const read = await at.type('reading log', { tub: 'A1', nitrite: 2 });
    at.advance({ minutes: 1 });
    await at.tap(read, 'Changed 5 L');
    expect(wordsOf(await at.tap(read, 'Changed 5 L', { name: 'alder' }))).toContain(
      'A1 was already changed today 10:01',
    );
  });
});

describe('the figures of ammonia', () => {
  it('can be compared with a printed table, harmful or fine', async () => {
    const { rows } = publishedTable('ammonia-trussell-1972.csv');
    expect(rows).toHaveLength(16);
    for (const row of rows.filter((_, index) => index % 3 === 0)) {
      for (const tempC of [10, 15, 20, 25]) {
        const percent = numberIn(row, `${tempC}C`);
        for (const ammonia of [0.1, 5]) {
          const raw = { tub: 'A1', ammonia, ph: numberIn(row, 'pH'), temp: tempC, sure: true };
          const said = wordsOf(await at.type('reading log', raw));
          const told = Number(/([\d.]+) %(?: of it|\))/.exec(said)?.[1]);
          // 2 %, and what the printed figure was rounded by.
          expect(Math.abs(told - percent), said).toBeLessThan(0.02 * percent + 0.005);
        }
      }
    }
  });

  it('are there in words where they are fine, with what was assumed', async () => {
    expect(linesOf(await at.type('reading log', { tub: 'A1', ammonia: 0.1, ph: 7, temp: 20 }))).toContain(
      'Fine: ammonia 0.1 mg/L, 0.000 mg/L un-ionised (0.394 %)',
    );
    const assumed = await at.type('reading log', { tub: 'A2', ammonia: 0.1 });
    expectPhone(assumed.card);
    expect(linesOf(assumed)).toContain('Fine: ammonia 0.1 mg/L, 0.005 mg/L un-ionised (5.37 %)');
    expect(linesOf(assumed)).toContain('Ammonia judged at pH 8 and 25 °C, assumed');
    expect(linesOf(await at.type('reading log', { tub: 'A3', ammonia: 0 }))).toContain('Fine: ammonia 0 mg/L');
  });
});

describe('the card of a reading with much wrong', () => {
  it('shows every value that harms, and the rest on one line', async () => {
    const answer = await at.type('reading log', {
      tub: 'A4',
      ...{ ammonia: 1, nitrite: 1, nitrate: 80, ph: 9.2, temp: 31, gh: 3, kh: 0.5, tds: 1500 },
    });
    expectPhone(answer.card);
    const lines = linesOf(answer);
    expect(lines).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^Un-ionised ammonia /),
        'Nitrite 1 mg/L, should be 0',
        '31 °C, good from 10 °C to 27 °C',
        'pH 9.2, good from 6.5 to 8.2',
        'Also: GH 3 °dGH · KH 0.5 °dKH · TDS 1500 mg/L',
      ]),
    );
  });
});

describe('a sheet', () => {
  const send = (lines: readonly string[]) =>
    at.press({ act: 'sheet-send', args: { rack: '' } }, { fields: { sheet: lines.join('\n') } });

  it('puts what harms first, in its title and as what to do, with the un-ionised part', async () => {
    const many = Array.from({ length: 11 }, (_, n) => `A${n + 1} no3 40`);
    const answer = await send([...many, 'A12 nh4 3 ph 8.2 t 25', 'A99 no3 5']);
    expectPhone(answer.card);
    expect(answer.card?.title).toBe('Act in A12: 12 logged, 1 line not');
    expect(answer.card?.why?.[0]).toBe('A12: act, ammonia 3 mg/L, 0.247 mg/L un-ionised (8.25 %)');
    expect(answer.card?.next).toBe('Change A12 5 L now; no food, more air, test tomorrow');
    expect(labelsOf(answer)[0]).toBe('A12 changed 5 L');
    const all = await send(Array.from({ length: 12 }, (_, n) => `A${n + 1} no2 2`));
    expect(all.card?.title).toBe('Act in 12 tubs: 12 logged');
    expect(all.card?.why?.filter((line) => line.includes('act,'))).toHaveLength(12);
  });

  it('says what does not fit, line by line, with a way to put it right', async () => {
    for (let week = 0; week < 12; week++) {
      await send(['A1 no3 20', 'A2 no3 20', 'A3 no3 20', 'A4 no3 20']);
      at.advance({ hours: 1 });
      for (const tub of ['A1', 'A2', 'A3', 'A4']) await at.type('change log', { tub, percent: 20 });
      at.advance({ days: 7, hours: -1 });
    }
    const answer = await send(['A1 no3 4.5', 'A2 no3 80', 'A4 no3 20']);
    expectPhone(answer.card);
    expect(wordsOf(answer)).toMatch(/^A1: watch, nitrate 4.5 mg\/L does not fit, \d+ \(\d+–\d+\) expected$/m);
    expect(wordsOf(answer)).toMatch(/^A2: watch, nitrate 80 mg\/L does not fit/m);
    at.advance({ minutes: 5 });
    const one = await at.tap(answer, 'A1: 4.5 does not fit', { name: 'alder' });
    expectPhone(one.card);
    expect(wordsOf(one)).toContain('logged by wren 10:00');
    await at.tap(one, 'It was nitrogen: 20 mg/L');
    expect(wordsOf(await at.tap(answer, 'A1: 4.5 does not fit'))).toContain('already');
    const four = await send(['A1 no3 80', 'A2 no3 0', 'A3 no3 80', 'A4 no3 80']);
    const pick = four.card?.controls?.[1]?.[0];
    expect(pick?.kind === 'select' && pick.options.length).toBe(4);
    const value = pick?.kind === 'select' ? (pick.options[2]?.value ?? '') : '';
    expect(wordsOf(await at.press({ act: 'reading-pick', args: {} }, { values: [value] }))).toMatch(
      /^A3: watch, nitrate 80 mg\/L does not fit/,
    );
  });
});
