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

describe('/reading log', () => {
  it('without a value leads to the form of the tub', async () => {
    const refused = await at.type('reading log', { tub: 'a3' });
    expect(wordsOf(refused)).toContain('Not logged: nothing to log');
    expect((await at.tap(refused, 'Reading of A3')).form?.title).toBe('Reading of A3');
    expect(labelsOf(await at.type('reading log', { tub: 'A99' }))).not.toContain('Reading of A99');
  });

  it('answers with the verdict first, then why, then what to do', async () => {
    const answer = await at.type('reading log', { tub: 'A3', nitrate: 40, temp: 21.4, ph: 7.4, tds: 240 });
    expectPhone(answer.card);
    expect(answer.private).toBeUndefined();
    expect(wordsOf(answer)).toBe(
      [
        'A3: watch, change 5 L today',
        'Nitrate 40 mg/L (kit step: 30–60), limit 20',
        'Rise not known yet, about 2.4 mg/L a week (0.8–7.2); source water 5',
        '5 L (25 %) gives about 32 (24–46)',
        '4 changes, 3 days apart, get it under 20',
        'Fine: 21.4 °C · pH 7.4 · TDS 240 mg/L',
        'logged by wren 18:50',
        'Next: Match the new water within 2 °C',
      ].join('\n'),
    );
    expect(labelsOf(answer)).toEqual(['Changed 5 L', 'Wrong entry']);
    expect(wordsOf(await at.tap(answer, 'Changed 5 L'))).toContain('A3: 5 L changed');
  });

  it('is act where ammonia harms, with the figures in their units and what was assumed', async () => {
    const answer = await at.type('reading log', { tub: 'A5', ammonia: 1 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain('A5: act, ammonia 1 mg/L');
    expect(wordsOf(answer)).toContain('Un-ionised ammonia 0.054 mg/L, 5.37 % of it at pH 8 and 25 °C, assumed');
    expect(wordsOf(answer)).toContain('0.78 mg/L as nitrogen (read as NH4), 63 % of the 30-day criterion (1.24)');
    expect(labelsOf(answer)[0]).toBe('Changed 5 L');
  });

  it.each([
    [{ temp: 72 }, '72 °C', 'Log 22.2 °C', 'Fine: 22.2 °C'],
    [{ ph: 74 }, 'pH 74', 'Log pH 7.4', 'Fine: pH 7.4'],
  ])('of %o writes nothing and offers it mended', async (values, shown, label, logged) => {
    const before = at.rows();
    const asked = await at.type('reading log', { tub: 'A3', ...values });
    expect(asked.private).toBe(true);
    expect(asked.card?.title).toBe(`Not logged: ${shown} cannot be right`);
    expect(labelsOf(asked)).toEqual([label, 'Leave it']);
    expect(at.rows()).toEqual(before);
    const answer = await at.tap(asked, label);
    expect(wordsOf(answer)).toContain(logged);
    expect(at.rows()['reading']).toBe((before['reading'] ?? 0) + 1);
    expect(wordsOf(await at.tap(asked, label))).toContain('answered already');
    expect(at.rows()['reading']).toBe((before['reading'] ?? 0) + 1);
  });

  it('keeps the moment of a slip that is mended a day later', async () => {
    const asked = await at.type('reading log', { tub: 'A3', temp: 72, when: 'yesterday 18:00' });
    at.advance({ days: 1 });
    await at.tap(asked, 'Log 22.2 °C');
    const [reading] = at.desk.store.water.readings(3, '' as never);
    expect(reading).toMatchObject({ tempC: 22.2, at: '2027-04-12T16:00:00.000Z' });
  });

  it.each([
    [{ tub: 'A9', ph: 7 }, 'no tub called "A9"\nNear it: A1, A2 or A3'],
    [{ tub: 'A3' }, 'nothing to log'],
    [{ tub: 'A3', ph: 7, when: 'tomorrow 9:00' }, 'tomorrow 09:00 is still to come'],
    [{ tub: 'A3', ph: 7, when: 'the day of the whale' }, 'the moment was not understood'],
    [{ tub: 'A3', nitrate: -5 }, 'nitrate -5 cannot be right'],
    [{ tub: 'A3', ph: 'high' }, '/reading log was not understood\nph: a number belongs here'],
  ])('of %o is refused, privately, and leaves nothing behind', async (raw, words) => {
    const before = at.rows();
    const answer = await at.type('reading log', raw);
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    expect(at.rows()).toEqual(before);
  });

  it('delivered twice under one key changes nothing the second time', async () => {
    await at.type('reading log', { tub: 'A3', ph: 7 }, { key: 'interaction-1' });
    const before = at.rows();
    await expect(at.type('reading log', { tub: 'A3', ph: 7 }, { key: 'interaction-1' })).rejects.toThrow('UNIQUE');
    expect(at.rows()).toEqual(before);
  });

  it('speaks Fahrenheit and gallons to a business in US units', async () => {
    await at.type('setup business', { units: 'us' });
    const answer = await at.type('reading log', { tub: 'A3', temp: 70.5, nitrate: 40 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toContain('A3: watch, change 5 L (1.3 gal) today');
    expect(wordsOf(answer)).toContain('Fine: 70.5 °F');
    expect(wordsOf(answer)).toContain('within 4 °F');
    const asked = await at.type('reading log', { tub: 'A3', temp: 22 });
    expect(labelsOf(asked)[0]).toBe('Log 71.6 °F');
    expect(wordsOf(await at.tap(asked, 'Log 71.6 °F'))).toContain('Fine: 71.6 °F');
  });
});

describe('the form of a reading', () => {
  const send = (fields: Record<string, string>) => at.press({ act: 'reading-send', args: { tub: 1 } }, { fields });

  it('logs what was filled in, decimal commas too', async () => {
    const answer = await send({ nitrate: '20', temp: '21,5', ph: '', others: 'gh 8 kh 4', note: ' ' });
    expect(wordsOf(answer)).toContain('Nitrate 20 mg/L (kit step: 15–30), limit 20');
    expect(wordsOf(answer)).toContain('Fine: 21.5 °C · GH 8 °dGH · KH 4 °dKH');
    expect(at.desk.store.water.readings(1, '' as never)).toMatchObject([{ ghDgh: 8, note: null }]);
  });

  it('comes back as it was typed when a word of it is not understood', async () => {
    const before = at.rows();
    const answer = await send({ nitrate: '20', temp: '', ph: '', others: 'gh 8 foo 3', note: 'murky' });
    expect(wordsOf(answer)).toContain('"foo" is not a value');
    expect(at.rows()).toEqual(before);
    const again = await at.tap(answer, 'Correct it');
    expect(again.form?.fields.map(({ value }) => value)).toEqual(['20', '', '', 'gh 8 foo 3', 'murky']);
  });

  it('comes back too when a value cannot be, besides the offer', async () => {
    const answer = await send({ nitrate: '', temp: '72', ph: '', others: '', note: '' });
    expect(labelsOf(answer)).toEqual(['Log 22.2 °C', 'Leave it', 'Correct it']);
  });
});

describe('/reading sheet', () => {
  it("opens a form with the rack's tubs, one a line", async () => {
    const { form } = await at.type('reading sheet', { rack: 'a' });
    expect(form?.fields[0]?.value).toBe('A1 \nA2 \nA3 \nA4 \nA5 \nA6 ');
    expect(wordsOf(await at.type('reading sheet', { rack: 'X' }))).toContain('No rack called "X"\nNext: Racks: A');
  });

  it('says how many tubs a form leaves out', async () => {
    await at.type('tub add', { name: 'B1-B40', line: 'orange', litres: 25 });
    expect((await at.type('reading sheet')).form?.title).toBe('Readings, 40 of 46');
    expect((await at.type('reading sheet', { rack: 'B' })).form?.title).toBe('Rack B');
  });

  it('logs the good lines, says what is wrong with the others and keeps those', async () => {
    const sheet = 'A1 no3 20 t 21\nA2 ph 74\nA9 no3 3\nA3 no3 60\nA4';
    const answer = await at.press({ act: 'sheet-send', args: { rack: 'A' } }, { fields: { sheet } });
    expect(wordsOf(answer)).toBe(
      [
        '2 readings logged, 2 lines not',
        'A3: watch, nitrate 60 mg/L, change 5 L today',
        'Fine: A1',
        'Not: A9 no3 3 (No tub called "A9", near it A1, A2 or A3)',
        'Not: A2 ph 74 (pH 74 cannot be right)',
        'logged by wren 18:50',
        'Next: Mend the lines that were not logged; they are kept',
      ].join('\n'),
    );
    expect((await at.tap(answer, 'Correct it')).form?.fields[0]?.value).toBe('A9 no3 3\nA2 ph 74');
  });
});

describe('/reading history', () => {
  it('is a table that fits a phone, newest first, also over the turn of a year', async () => {
    await at.type('reading log', { tub: 'A1', nitrate: 12.5, temp: 21.55, ph: 7.25, when: '2026-08-20 12:00' });
    await at.type('reading log', { tub: 'A1', nitrate: 160, gh: 8, kh: 4, tds: 240, ammonia: 0.25, nitrite: 0, ph: 7 });
    const answer = await at.type('reading history', { tub: 'A1', days: 300 });
    expectPhone(answer.card);
    expect(answer.card?.title).toBe('A1: 2 readings in 300 days');
    expect(answer.card?.table?.[1]).toMatch(/^13 Apr +160 +· +7 /);
    expect(answer.card?.table?.[2]).toMatch(/^20 Aug 2026 +12.5 +21.[56] +7.25/);
    expect(wordsOf(answer)).toContain('ask for one with what');
    const one = await at.type('reading history', { tub: 'A1', what: 'ammonia' });
    expect(one.card?.table).toHaveLength(2);
  });

  it('says so when there is nothing, and when the days cannot be', async () => {
    expect(wordsOf(await at.type('reading history', { tub: 'A2', days: 1 }))).toContain('A2: no readings in 1 day\n');
    expect(wordsOf(await at.type('reading history', { tub: 'A2', days: 0 }))).toContain('0 days cannot be right');
  });
});
