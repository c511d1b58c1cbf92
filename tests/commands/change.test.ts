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

const changes = (tub: number) => at.desk.store.water.changes(tub, '' as never);

describe('/change log', () => {
  it('logs the planned change without litres', async () => {
    const answer = await at.type('change log', { tub: 'A1' });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toBe(
      ['A1: 2 L changed', '10 % of 20 L net', 'Next change Tue 20 Apr, 2 L', 'logged by wren 18:50'].join('\n'),
    );
  });

  it('says for when it was, in the zone of the business', async () => {
    expect(wordsOf(await at.type('change log', { tub: 'A1', when: 'yesterday 19:10' }))).toContain(
      'logged by wren 18:50, for yesterday 19:10',
    );
  });

  it.each([
    [{ litres: 0 }, '0 L cannot be right'],
    [{ percent: 120 }, '120 % cannot be right'],
    [{ litres: 50 }, 'A1 holds 20 L'],
  ])('of %o is refused and leaves nothing behind', async (raw, words) => {
    const before = at.rows();
    const answer = await at.type('change log', { tub: 'A1', ...raw });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    expect(at.rows()).toEqual(before);
  });
});

describe('a tub changed twice within its interval', () => {
  const twice = async (raw: Record<string, unknown> = { percent: 25 }) => {
    await at.type('change log', { tub: 'A4', percent: 25 }, { name: 'alder' });
    at.advance({ days: 1 });
    return at.type('change log', { tub: 'A4', ...raw });
  };

  it('is asked about, with what two of them mean, before anything is written', async () => {
    await at.type('change log', { tub: 'A4', percent: 25 }, { name: 'alder' });
    at.advance({ days: 1 });
    const before = at.rows();
    const asked = await at.type('change log', { tub: 'A4', percent: 25 });
    expectPhone(asked.card);
    expect(wordsOf(asked)).toBe(
      [
        'A4 was already changed yesterday 18:50',
        'alder logged 5 L (25 %)',
        'With these 5 L (25 %) the two swap 44 %',
        'Not logged yet',
      ].join('\n'),
    );
    expect(labelsOf(asked)).toEqual(['It was a second change', 'It was a top-up', 'Leave it']);
    expect(at.rows()).toEqual(before);
  });

  it('is written as a second change when it was one, by the one who says so and for when it was', async () => {
    const asked = await twice();
    at.advance({ hours: 3 });
    await at.tap(asked, 'It was a second change');
    expect(changes(4)).toMatchObject([
      { litres: 5, by: 'alder' },
      { litres: 5, by: 'wren', at: '2027-04-14T16:50:00.000Z' },
    ]);
  });

  it('is written as a top-up when it was one, for the moment that was typed', async () => {
    const asked = await twice({ litres: 3, when: '18:00' });
    at.advance({ days: 2 });
    const answer = await at.tap(asked, 'It was a top-up');
    expect(wordsOf(answer)).toContain('A4: 3 L topped up, tap water');
    expect(changes(4)).toHaveLength(1);
    expect(at.desk.store.water.topUps(4, '' as never)).toMatchObject([{ litres: 3, at: '2027-04-14T16:00:00.000Z' }]);
  });

  it('is dropped when it is left, and answered once', async () => {
    const asked = await twice();
    const before = at.rows();
    expect((await at.tap(asked, 'Leave it')).settle?.title).toContain('nothing was logged');
    expect(at.rows()).toEqual(before);
    await at.tap(asked, 'It was a second change');
    expect(wordsOf(await at.tap(asked, 'It was a top-up', { name: 'alder' }))).toContain('answered already');
    expect(changes(4)).toHaveLength(2);
  });
});

describe('/change plan', () => {
  it('has the litres of today, the water for them, and what comes next', async () => {
    await at.type('reading log', { tub: 'A3', nitrate: 40 });
    const answer = await at.type('change plan');
    expectPhone(answer.card);
    expect(wordsOf(answer)).toBe(
      [
        '2 changes today, 7 L',
        'Rack A: 7 L, 1 bucket of 10 L',
        'Then A2 tomorrow',
        'tub    change NO3',
        'A3        5 L 40→32  1 of 4',
        'A1        2 L        no test',
        'Next: Prepare the water: dechlorinated, within 2 °C',
      ].join('\n'),
    );
  });

  it('ticks several at once and says of each that was not logged why', async () => {
    await at.type('change log', { tub: 'A1' });
    const answer = await at.press({ act: 'changes-done', args: {} }, { values: ['1', '2', '4'] });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain('2 changes logged, 4 L\nA2 2 L · A4 2 L\nA1 was already changed today 18:50');
  });

  it('of one tub says why', async () => {
    expect(wordsOf(await at.type('change plan', { tub: 'A4' }))).toContain(
      'A4: change 2 L Fri 16 Apr\n10 % of 20 L net\nNo nitrate reading of late: the least of your policy',
    );
    await at.type('setup water', { 'source-nitrate': 25 });
    await at.type('reading log', { tub: 'A4', nitrate: 40 });
    expect(wordsOf(await at.type('change plan', { tub: 'A4' }))).toContain(
      'No change gets under 20: the source water is not',
    );
  });

  it('has nothing to do without tubs', async () => {
    const empty = keyboardAt('2027-04-13T16:50:00Z');
    expect(wordsOf(await empty.type('change plan'))).toBe('No tubs yet\nNext: Add them first');
    empty.close();
  });
});

describe('/topup', () => {
  it('is not a change and says what it does to TDS', async () => {
    const unknown = await at.type('topup', { tub: 'A4', litres: 1.5 });
    expectPhone(unknown.card);
    expect(wordsOf(unknown)).toContain('Tap water adds its own each time: TDS creeps up');
    await at.type('setup water', { 'source-tds': 180 });
    expect(wordsOf(await at.type('topup', { tub: 'A4', litres: 2 }))).toContain('adds about 18 mg/L TDS each time');
    await at.type('reading log', { tub: 'A4', tds: 240 });
    expect(wordsOf(await at.type('topup', { tub: 'A4', litres: 2 }))).toContain('adds about 18 mg/L TDS: 240 → 258');
    expect(wordsOf(await at.type('topup', { tub: 'A4', litres: 2, water: 'soft' }))).toContain('TDS stays as it was');
  });
});
