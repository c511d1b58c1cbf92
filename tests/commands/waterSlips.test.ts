import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T08:00:00Z');
  await at.begin();
});
afterEach(() => at.close());

const readings = () => at.rows()['reading'] ?? 0;

describe('a value that slipped', () => {
  it.each([
    [{ ph: 740 }, 'Log pH 7.4', 'pH 7.4'],
    [{ ph: 0.74 }, 'Log pH 7.4', 'pH 7.4'],
    [{ nitrate: 2500 }, 'Log nitrate 25 mg/L', 'Nitrate 25 mg/L'],
    [{ nitrate: 250 }, 'Log nitrate 25 mg/L', 'Nitrate 25 mg/L'],
    [{ temp: 2.15 }, 'Log 21.5 °C', '21.5 °C'],
    [{ tds: 24 }, 'Log TDS 240 mg/L', 'TDS 240 mg/L'],
    [{ tds: 2400 }, 'Log TDS 240 mg/L', 'TDS 240 mg/L'],
    [{ tds: 0.24 }, 'Log TDS 240 mg/L', 'TDS 240 mg/L'],
    [{ temp: 7.4, ph: 21.5 }, 'Log 21.5 °C and pH 7.4', '21.5 °C · pH 7.4'],
  ])('is asked about in the first reading of a tub: %o', async (typed, label, logged) => {
    const before = readings();
    const asked = await at.type('reading log', { tub: 'A1', ...typed });
    expectPhone(asked.card);
    expect(wordsOf(asked)).toMatch(/^Not logged/);
    expect(labelsOf(asked)[0]).toBe(label);
    expect(readings()).toBe(before);
    expect(wordsOf(await at.tap(asked, label))).toContain(logged);
    expect(readings()).toBe(before + 1);
  });

  it.each([
    [{ temp: 2.15 }, '2.15 °C is right'],
    [{ tds: 2400 }, 'TDS 2400 is right'],
    [{ nitrate: 250 }, 'nitrate 250 is right'],
  ])('is logged as typed when it was right: %o', async (typed, label) => {
    const asked = await at.type('reading log', { tub: 'A1', ...typed });
    expect(wordsOf(await at.tap(asked, label))).toMatch(/^A1: (act|watch)/);
  });

  it.each([{ nitrate: 320 }, { temp: 12 }, { tds: 60 }, { ph: 7.4, temp: 22 }, { nitrate: 160 }])(
    'is nothing where it is usual, or the sample was diluted: %o',
    async (typed) => {
      expect(wordsOf(await at.type('reading log', { tub: 'A1', ...typed }))).toMatch(/^A1: /);
    },
  );

  it('is mended in a business of the other units too', async () => {
    await at.type('setup business', { units: 'us' });
    const asked = await at.type('reading log', { tub: 'A1', temp: 215 });
    expect(wordsOf(asked)).toContain('21.5 °C would be 70.7 °F');
    expect(wordsOf(await at.tap(asked, 'Log 70.7 °F'))).toContain('Fine: 70.7 °F');
    expect(labelsOf(await at.type('reading log', { tub: 'A2', temp: 7.4, ph: 71 }))[0]).toBe('Log 71 °F and pH 7.4');
  });
});

describe('an amount that slipped', () => {
  it('is asked about where litres and per cent disagree', async () => {
    const asked = await at.type('change log', { tub: 'A1', litres: 5, percent: 50 });
    expectPhone(asked.card);
    expect(labelsOf(asked)).toEqual(['5 L', '50 %, 10 L', 'Leave it']);
    expect(wordsOf(await at.tap(asked, '50 %, 10 L'))).toContain('A1: 10 L changed');
  });

  it('is asked about where it is most of the tub', async () => {
    const asked = await at.type('change log', { tub: 'A1', litres: 20 });
    expectPhone(asked.card);
    expect(wordsOf(asked)).toContain('Not logged yet: A1, 100 % changed?');
    expect(wordsOf(await at.tap(asked, 'Yes, 20 L'))).toContain('A1: 20 L changed');
  });

  it('of a tub whose litres were edited stays the part that it was', async () => {
    await at.type('reading log', { tub: 'A1', nitrate: 40 });
    at.advance({ minutes: 5 });
    await at.type('change log', { tub: 'A1', litres: 10 });
    const nowOf = async () => /Nitrate about (\S+)/.exec(wordsOf(await at.type('change plan', { tub: 'A1' })))?.[1];
    const before = await nowOf();
    await at.type('tub edit', { tub: 'A1', 'net-litres': 10 });
    expect(await nowOf()).toBe(before);
  });
});

describe('a sheet with one line that slipped', () => {
  const send = (...lines: string[]) =>
    at.press({ act: 'sheet-send', args: { rack: '' } }, { fields: { sheet: lines.join('\n') } });

  it('offers it mended, and keeps notes', async () => {
    const answer = await send('A1 no3 10 lovely shrimp', 'A2 t 215');
    expectPhone(answer.card);
    expect(at.desk.store.water.readings(1, '' as never)).toMatchObject([{ nitrateMgL: 10, note: 'lovely shrimp' }]);
    expect(labelsOf(answer)).toEqual(['A2: 21.5 °C', 'Correct it', 'Next change']);
    expect(wordsOf(await at.tap(answer, 'A2: 21.5 °C'))).toMatch(/^A2: fine/);
    expect(at.desk.store.water.readings(2, '' as never)).toMatchObject([{ tempC: 21.5 }]);
    const two = await send('A3 t 215', 'A4 ph 74');
    expect(labelsOf(two)).toEqual(['Correct it', 'Next change']);
  });
});

describe('a second look', () => {
  const weeks = async (tub: string) => {
    for (let week = 0; week < 12; week++) {
      await at.type('reading log', { tub, nitrate: 20 });
      at.advance({ hours: 1 });
      await at.type('change log', { tub, percent: 20 });
      at.advance({ days: 7, hours: -1 });
    }
  };

  it('that was asked for counts, and names the first', async () => {
    await weeks('A1');
    expect(wordsOf(await at.type('reading log', { tub: 'A1', nitrate: 80 }))).toContain('Next: Test again');
    at.advance({ minutes: 10 });
    const again = await at.type('reading log', { tub: 'A1', nitrate: 80 }, { name: 'alder' });
    expectPhone(again.card);
    expect(wordsOf(again)).toContain('wren read the same today 10:00: two looks that agree');
    expect(wordsOf(again)).not.toContain('does not fit');
  });

  it('that nobody asked for is the same look', async () => {
    await weeks('A1');
    await at.type('reading log', { tub: 'A1', nitrate: 20 });
    at.advance({ minutes: 10 });
    const again = await at.type('reading log', { tub: 'A1', nitrate: 20 }, { name: 'alder' });
    expect(wordsOf(again)).toContain('wren read the same today 10:00: counted as one look');
  });
});

describe('nitrate that was read long ago', () => {
  it('carries its age and asks for a test before a change', async () => {
    await at.type('reading log', { tub: 'A1', nitrate: 20 });
    for (let week = 0; week < 8; week++) {
      await at.type('change log', { tub: 'A1', percent: 20 });
      at.advance({ days: 7 });
    }
    const plan = await at.type('change plan', { tub: 'A1' });
    expectPhone(plan.card);
    expect(wordsOf(plan)).toMatch(/mg\/L now, limit 20, read 56 days ago/);
    expect(plan.card?.next).toBe('Test nitrate first: it was read 56 days ago');
    expect((await at.type('tub show', { tub: 'A1' })).card?.next).toBe('Test nitrate first: it was read 56 days ago');
    at.advance({ days: 70 });
    expect(wordsOf(await at.type('change plan', { tub: 'A1' }))).toContain('Nitrate not read for 126 days');
  });
});

describe('the words of a change', () => {
  it('say which new water keeps the temperature, and never more than five lines', async () => {
    await at.type('reading log', { tub: 'A1', nitrate: 10, temp: 22 });
    expect(wordsOf(await at.type('change plan', { tub: 'A1' }))).toContain(
      'New water of 8 to 30 °C moves the tub by 2 °C at most',
    );
    await at.type('setup water', { 'source-gh': 2, 'source-tds': 60, 'source-nitrate': 30 });
    await at.type('reading log', { tub: 'A2', nitrate: 80, gh: 18, tds: 500, temp: 18, nitrite: 0.3 });
    for (const tub of ['A1', 'A2', 'A3']) {
      const plan = await at.type('change plan', { tub });
      expectPhone(plan.card);
      expect(plan.card?.why?.length).toBeLessThanOrEqual(5);
    }
  });

  it('ask to dilute a sample that the kit cannot show', async () => {
    const top = await at.type('reading log', { tub: 'A1', nitrate: 160 });
    expect(top.card?.next).toBe('Test again: sample 1:1 with pure water, double what it shows');
    at.advance({ days: 1 });
    const doubled = await at.type('reading log', { tub: 'A2', nitrate: 320 });
    expect(wordsOf(doubled)).toContain('Nitrate 320 mg/L (top step: 240 or more)');
    expect(doubled.card?.next).not.toContain('1:1');
  });

  it('say that ammonia harmless at a low pH is toxic at a higher one', async () => {
    const answer = await at.type('reading log', { tub: 'A1', ammonia: 8, ph: 6.2, temp: 20 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toMatch(/At pH 8 0\.\d\d mg\/L of it would be un-ionised: toxic/);
    expect(answer.card?.next).toBe('Change only with water of the same pH; test again tomorrow');
  });

  it('point to the setting that mixes source water under the limit, and say nothing once it does', async () => {
    expect(wordsOf(await at.type('setup water', { 'source-nitrate': 40 }))).toContain('set target-nitrate to mix it');
    expect(wordsOf(await at.type('setup water', { 'target-nitrate': 10 }))).not.toContain('not under the limit');
  });
});

describe('the table of the plan', () => {
  it('has a header, the far-over before the late, the untested last, and marks what does not fit', async () => {
    for (let week = 0; week < 10; week++) {
      for (const [tub, nitrate] of [
        ['A1', 20],
        ['A2', 40],
      ] as const)
        await at.type('reading log', { tub, nitrate });
      at.advance({ days: 7 });
      for (const tub of ['A1', 'A2']) await at.type('change log', { tub, percent: 25, second: true });
    }
    await at.type('reading log', { tub: 'A1', nitrate: 160 });
    await at.type('reading log', { tub: 'A3', nitrite: 2 });
    at.advance({ days: 8 });
    const answer = await at.type('change plan');
    expectPhone(answer.card);
    const [header = '', ...rows] = answer.card?.table ?? [];
    expect(header).toMatch(/^tub +change +NO3$/);
    expect(rows.map((row) => row.slice(0, 2))).toEqual(['A3', 'A1', 'A2', 'A4', 'A5', 'A6']);
    expect(rows[1]).toMatch(/\d\?/);
    expect(wordsOf(answer)).toContain('?: the last reading does not fit; open the tub');
    const list = await at.type('tub list');
    expect(list.card?.table?.find((row) => row.startsWith('A1'))).toMatch(/\d\? /);
  });
});
