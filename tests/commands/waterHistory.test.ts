import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRandom } from '../../seed/random.ts';
import { afterChange } from '../../src/domain/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2026-05-04T16:50:00Z');
  await at.begin('A1-A4');
});
afterEach(() => at.close());

const kitSteps = [0, 5, 10, 20, 40, 80, 160];
const nearestStep = (mgL: number): number =>
  kitSteps.reduce((best, step) => (Math.abs(step - mgL) < Math.abs(best - mgL) ? step : best), 0);

/** So many weeks of a tub that is read and then changed, as its kit shows it; what the last reading answered. */
async function weeks(
  tub: string,
  readings: readonly number[],
  changed: { readonly percent: number } | null = { percent: 20 },
) {
  let last = '';
  for (const nitrate of readings) {
    const answer = await at.type('reading log', { tub, nitrate });
    expectPhone(answer.card);
    last = wordsOf(answer);
    at.advance({ minutes: 20 });
    if (changed !== null) await at.type('change log', { tub, percent: changed.percent });
    at.advance({ days: 7, minutes: -20 });
  }
  return last;
}

const planOf = async (tub: string) => {
  const answer = await at.type('change plan', { tub });
  expectPhone(answer.card);
  return wordsOf(answer);
};

describe('the plan by what was read', () => {
  it('without a reading is the least of the policy', async () => {
    expect(await planOf('A1')).toContain('No nitrate reading of late: the least of your policy');
  });

  it('after one reading says what the kit tells, and that the rise is not known yet', async () => {
    const said = wordsOf(await at.type('reading log', { tub: 'A1', nitrate: 20 }));
    expect(said).toContain('Nitrate 20 mg/L (kit step: 15–30), limit 20');
    expect(said).toMatch(/Rise not known yet, about [\d.]+ mg\/L a week \([\d.]+–[\d.]+\); source water 5/);
  });

  it('takes a value between the steps as it is', async () => {
    expect(wordsOf(await at.type('reading log', { tub: 'A1', nitrate: 12 }))).toContain('Nitrate 12 mg/L, limit 20');
  });

  it('after a year of zeros does not invent a rise, and asks for the least', async () => {
    const said = await weeks(
      'A1',
      Array.from({ length: 52 }, () => 0),
      { percent: 10 },
    );
    expect(said).toMatch(/^A1: fine/);
    const plan = await planOf('A1');
    // The water that goes in holds 5: where the kit shows none a year long, plants take it up.
    expect(plan).toMatch(
      /^Falling about [01](\.\d)? mg\/L a week: plants take it up|^Rising 0–[01](\.\d)? mg\/L a week/m,
    );
    expect(plan).toContain('change 2 L');
  });

  it('with all readings at the top step says that it is that or more, and goes on in steps', async () => {
    const said = await weeks('A1', [160, 160, 160, 160, 160, 160], null);
    expect(said).toContain('Nitrate 160 mg/L (top step: 120 or more), limit 20');
    const plan = await planOf('A1');
    expect(plan).toContain('change 5 L today');
    expect(plan).toMatch(/(\d+|many) changes?.*apart, get it under 20/);
  });

  it('with source water over the limit says so, with the floor and what helps', async () => {
    await at.type('setup water', { 'source-nitrate': 30 });
    const said = await weeks('A1', [40, 40, 40, 40]);
    expect(said).toContain('No change gets under 20: the source water is not, floor about');
    expect(await planOf('A1')).toContain('Helps: source water of at most');
  });

  it('asks for a change three days later where one is too small, and does not ask whether that is a second one', async () => {
    await at.type('reading log', { tub: 'A1', nitrate: 80 });
    at.advance({ minutes: 5 });
    const answer = await at.type('change log', { tub: 'A1' });
    expect(wordsOf(answer)).toContain('A1: 5 L changed');
    expect(wordsOf(answer)).toContain('Next change Thu 7 May');
    at.advance({ days: 2 });
    expect(wordsOf(await at.type('change log', { tub: 'A1' }))).toContain('A1 was already changed');
    at.advance({ days: 1 });
    expect(wordsOf(await at.type('change log', { tub: 'A1' }))).toContain('A1: 5 L changed');
  });

  it('holds a simulated tub under its limit for a year of following it, kit steps and all', async () => {
    const random = openRandom(20_260_504);
    let mgL = 24;
    let over = 0;
    let litres = 0;
    for (let week = 0; week < 52; week++) {
      if (week % 2 === 0) {
        const seen = nearestStep(mgL * Math.exp(0.05 * random.normal()));
        await at.type('reading log', { tub: 'A1', nitrate: seen });
      }
      at.advance({ minutes: 10 });
      const words = wordsOf(await at.type('change log', { tub: 'A1', second: true }));
      const changed = Number(/^A1: ([\d.]+) L changed/.exec(words)?.[1]);
      litres += changed;
      mgL = afterChange(mgL, changed / 20, 5) + 7 * 0.25;
      if (week >= 4) over += Number(mgL > 20);
      at.advance({ days: 7, minutes: -10 });
    }
    expect(over / 48).toBeLessThan(0.05);
    // A quarter every week, the policy's most, would be 260 L.
    expect(litres).toBeLessThan(230);
  });
});

describe('a reading that does not follow', () => {
  /** A tub that the log knows well: 20 mg/L week after week. */
  const steady = () =>
    weeks(
      'A2',
      Array.from({ length: 12 }, () => 20),
    );

  it('is pointed out as it is logged, with what was to be expected, and again in the plan', async () => {
    await steady();
    const answer = await at.type('reading log', { tub: 'A2', nitrate: 80 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toMatch(/^A2: watch, nitrate 80 mg\/L does not fit/);
    expect(wordsOf(answer)).toMatch(/Does not fit: \d+ \(\d+–\d+\) mg\/L was to be expected/);
    expect(await planOf('A2')).toMatch(/Nitrate 80 mg\/L of .* does not fit/);
    expect(wordsOf(await at.type('tub show', { tub: 'A2' }))).toMatch(/Nitrate 80 mg\/L of .* does not fit/);
  });

  it('typed as nitrogen is put right by one tap, once, and by nobody a second time', async () => {
    await steady();
    const answer = await at.type('reading log', { tub: 'A2', nitrate: 4.5, temp: 21 });
    const before = at.rows();
    const label = 'It was nitrogen: 20 mg/L';
    expect(labelsOf(answer)).toContain(label);
    const mended = await at.tap(answer, label);
    expectPhone(mended.card);
    expect(wordsOf(mended)).toContain('Nitrate 20 mg/L');
    expect(wordsOf(mended)).toContain('Fine: 21 °C');
    expect(at.rows()['reading']).toBe((before['reading'] ?? 0) + 1);
    expect(at.desk.store.water.latestReading(2)).toMatchObject({ nitrateMgL: 19.9, tempC: 21 });
    expect(wordsOf(await at.tap(answer, label, { name: 'alder' }))).toContain('already');
    expect(at.rows()['reading']).toBe((before['reading'] ?? 0) + 1);
  });

  it('read a step wrong is put right by one tap', async () => {
    await steady();
    const answer = await at.type('reading log', { tub: 'A2', nitrate: 80 });
    const label = labelsOf(answer).find((one) => one.startsWith('It was '));
    if (label === undefined) throw new Error(`no mended step among ${labelsOf(answer).join(', ')}`);
    await at.tap(answer, label);
    expect(at.desk.store.water.latestReading(2)?.nitrateMgL).toBeLessThan(80);
    expect(await planOf('A2')).not.toContain('does not fit');
  });

  it('after a change that was made twice and logged once names it, and logs it by one tap', async () => {
    await weeks(
      'A3',
      Array.from({ length: 12 }, () => 80),
    );
    await at.type('change log', { tub: 'A3', percent: 70, second: true });
    at.advance({ minutes: 30 });
    // 70 % twice: 80 → 27.5 → 11.8.
    const answer = await at.type('reading log', { tub: 'A3', nitrate: 10 });
    expect(wordsOf(answer)).toContain('does not fit');
    const label = labelsOf(answer).find((one) => /changed twice|missed change/.test(one));
    if (label === undefined) throw new Error(`no change among ${labelsOf(answer).join(', ')}`);
    const before = at.rows();
    expect(wordsOf(await at.tap(answer, label))).toContain('L changed');
    expect(at.rows()['water_change']).toBe((before['water_change'] ?? 0) + 1);
    expect(await planOf('A3')).not.toContain('does not fit');
    // The partner taps the same card: once is enough.
    at.advance({ minutes: 2 });
    const second = await at.tap(answer, label, { name: 'alder' });
    expectPhone(second.card);
    expect(wordsOf(second)).toMatch(/^Already logged by wren: A3, \d+ L\nFor today /);
    expect(at.rows()['water_change']).toBe((before['water_change'] ?? 0) + 1);
  });

  it('is not seen in a history that is what it says', async () => {
    const said = await weeks('A4', [10, 10, 10, 20, 20, 20, 10, 20, 20]);
    expect(said).not.toContain('does not fit');
    expect(await planOf('A4')).not.toContain('does not fit');
  });
});

describe('water that is prepared', () => {
  it('has its recipe by rack, and its nitrate counts as that of the source', async () => {
    await at.type('setup water', { 'source-gh': 12, 'source-nitrate': 20, 'target-gh': 6, bucket: 5 });
    await at.type('reading log', { tub: 'A1', nitrate: 40 });
    const plan = wordsOf(await at.type('change plan'));
    expect(plan).toContain('Rack A: 5 L (2.5 tap + 2.5 pure), 1 bucket of 5 L');
    expect(await planOf('A1')).toContain('source water 10');
    await at.type('setup water', { 'target-gh': 0 });
    expect(await planOf('A1')).toContain('source water 20');
  });

  it('splits a change that would move GH too far', async () => {
    await at.type('setup water', { 'source-gh': 2 });
    await at.type('reading log', { tub: 'A1', nitrate: 40, gh: 14 });
    const plan = await planOf('A1');
    expect(plan).toContain('A1: change 2.5 L today');
    expect(plan).toContain('GH moves 14 → 12.5; 5 L at once would be too far');
  });
});

describe('minerals that creep', () => {
  it('show in the reading and in the tub, with what topping up does', async () => {
    await at.type('setup water', { 'source-tds': 200 });
    for (let week = 0; week < 8; week++) {
      await at.type('reading log', { tub: 'A1', tds: 200 + 12 * week });
      at.advance({ hours: 1 });
      await at.type('topup', { tub: 'A1', litres: 1.5 });
      await at.type('change log', { tub: 'A1', litres: 2 });
      at.advance({ days: 7, hours: -1 });
    }
    const answer = await at.type('reading log', { tub: 'A1', tds: 300 });
    expectPhone(answer.card);
    expect(wordsOf(answer)).toMatch(/TDS rising 1[0-4] mg\/L a week, 2\d\d → 300/);
    expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toContain('Top up with soft water');
    // e = 7.5 %, f = 10 % a week: 200 × (1 + 0.75).
    const topped = wordsOf(await at.type('topup', { tub: 'A1', litres: 1.5 }));
    expect(topped).toMatch(/8?[\d.]+ % a week topped up with tap water, [\d.]+ % changed: settles at TDS about 3\d\d/);
  });
});
