import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, linesOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin();
  await at.type('reading log', { tub: 'A1', temp: 20, ph: 7.4, kh: 5 });
});
afterEach(() => at.close());

async function planned(raw: Record<string, unknown>) {
  const before = at.rows();
  const answer = await at.type('pack', raw);
  expectPhone(answer.card);
  expect(answer.private).toBeUndefined();
  expect(answer.card?.why?.length ?? 0).toBeLessThanOrEqual(4);
  expect(at.rows()).toEqual(before);
  return answer;
}

describe('/pack', () => {
  it('has bags, water and safe hours in the first line, what ends them, how far sources differ, and practice', async () => {
    const answer = await planned({ number: 10 });
    expect(wordsOf(answer)).toBe(
      [
        '10 in 1 bag, 0.45 L: safe for 72 h',
        'Ammonia decides: NH3-N 0.047 of 0.05 mg/L (0.022 if CO2 makes pH 7.1)',
        '72 h: transit, slack, a day late; 20 °C as the tubs; pH 7.4; 15 mm',
        'Sources differ: 0.2–0.45 L; common practice 0.3–0.4 L, 22–168+ h',
        'Pump no air into a bag closed for days: the pH rises, ammonia harms',
        'Next: Bag 10 in 0.45 L; air twice the water',
      ].join('\n'),
    );
    expect(labelsOf(answer)).toEqual(['Breathable bag', 'Packing list']);
  });

  it('does the same for the other bag on a button, and back', async () => {
    const answer = await planned({ number: 25, hours: 48, temp: 17.5, 'length-mm': 18.5 });
    expect(linesOf(answer)).toContain('Air 17.5 °C; pH 7.4; 18.5 mm');
    const breathable = await at.tap(answer, 'Breathable bag');
    expectPhone(breathable.card);
    expect(breathable.card?.title).toMatch(/^25 in \d bags, [\d.]+ L: safe for 48 h$/);
    expect(linesOf(breathable)).toContain('It breathes through its film: paper between bags, never one in another');
    expect(breathable.card?.next).toMatch(/; no air above it$/);
    expect(wordsOf(await at.tap(breathable, 'Ordinary bag'))).toBe(wordsOf(answer));
    const unsaid = await at.tap(await planned({ number: 10 }), 'Breathable bag');
    expect(linesOf(unsaid)[2]).toBe('72 h: transit, slack, a day late; 20 °C as the tubs; pH 7.4; 15 mm');
  });

  it('takes the saleable length, transit and slack from the settings', async () => {
    await at.type('setup line', { line: 'orange', 'saleable-mm': 18 });
    await at.type('setup dispatch', { 'transit-days': 2, 'slack-days': 0 });
    const [, , grounds] = linesOf(await planned({ number: 10 }));
    expect(grounds).toBe('72 h: transit, slack, a day late; 20 °C as the tubs; pH 7.4; 18 mm');
    await at.type('setup dispatch', { 'transit-days': 3, 'slack-days': 1 });
    expect(linesOf(await planned({ number: 10 }))[0]).toMatch(/: safe for 120 h$/);
  });

  it('says what was taken where nothing was measured, and where to log it', async () => {
    const fresh = keyboardAt('2027-04-13T16:50:00Z');
    const answer = await fresh.type('pack', { number: 10 });
    expect(linesOf(answer)[2]).toBe('72 h: transit, slack, a day late; 20 °C taken; pH 8 taken; 15 mm');
    expect(linesOf(answer)[1]).toBe('Ammonia decides: NH3-N 0.048 of 0.05 mg/L');
    expect(labelsOf(answer)).toContain('Log a reading');
    fresh.close();
  });

  it('says oxygen where that decides, and who may use pure oxygen', async () => {
    await at.type('reading log', { tub: 'A1', ph: 6.6 });
    const lines = linesOf(await planned({ number: 10 }));
    expect(lines[1]).toMatch(/^Oxygen decides: 4\.\d mg\/L left, 4 at least; it gets in slowly$/);
    expect(lines[4]).toBe('Pure oxygen would do more, but is for trained people only');
  });

  it('says so where nothing runs out', async () => {
    const lines = linesOf(await planned({ number: 2, temp: 8, hours: 24 }));
    expect(lines.slice(0, 2)).toEqual([
      '2 in 1 bag, 0.2 L: safe for 24 h',
      'Nothing runs out in 7 days; 0.2 L is the least in a bag',
    ]);
    expect(lines).toHaveLength(5);
  });

  it('tells of heat after the hours asked', async () => {
    const lines = linesOf(await planned({ number: 2, temp: 40, hours: 1 }));
    expect(lines.slice(0, 2)).toEqual(['2 in 1 bag, 0.2 L: safe for 1 h', 'Heat decides: 30 °C after 1 h']);
  });

  it('does not call a bag safe that gets too hot or too cold', async () => {
    const hot = await planned({ number: 10, temp: 34 });
    expect(linesOf(hot).slice(0, 2)).toEqual([
      '10 shrimp: too hot after 2 h',
      'Over 30 °C by then in air of 34 °C, packed at 20 °C',
    ]);
    const cold = await planned({ number: 10, temp: 2 });
    expect(linesOf(cold)).toEqual([
      '10 shrimp: too cold after 3 h',
      'Under 5 °C by then in air of 2 °C, packed at 20 °C',
      'But for the cold 1 bag, 0.2 L would last 72 h',
      'A heat pack goes on the lid, wrapped, and never touches a bag',
      'Wait for milder days, or pack against the cold',
    ]);
    expect(labelsOf(cold)).toEqual(['Packing list']);
    expect(linesOf(await planned({ number: 10, temp: 2, hours: 168, 'length-mm': 40 }))[2]).toMatch(
      / would last 168 h$/,
    );
    expect(linesOf(await planned({ number: 10, temp: -20 }))[0]).toBe('10 shrimp: too cold within the hour');
  });

  it('says how long at most where no bag lasts', async () => {
    const answer = await planned({ number: 10, temp: 28, hours: 168, 'length-mm': 40 });
    expect(linesOf(answer)).toEqual([
      '10 shrimp: no bag lasts 168 h',
      expect.stringMatching(/^Even one alone in 1 L lasts \d+ h; oxygen decides$/),
      'Air 28 °C; pH 7.4; 40 mm',
      expect.stringMatching(/^By the mildest sources [\d.]+ L would last$/),
      'Send by a faster service, or on cooler days',
    ]);
    expect(linesOf(await planned({ number: 10, hours: 300 }))[1]).toBe('Bags are reckoned for 168 h, 7 days, at most');
  });

  it('speaks US units where these are set, the sum being that of the bags', async () => {
    await at.type('setup business', { units: 'us' });
    expect(linesOf(await planned({ number: 10 }))).toEqual([
      '10 in 1 bag, 16 fl oz: safe for 72 h',
      'Ammonia decides: NH3-N 0.047 of 0.05 mg/L (0.022 if CO2 makes pH 7.1)',
      '72 h: transit, slack, a day late; 68 °F as the tubs; pH 7.4; 15 mm',
      'Sources differ: 7–16 fl oz; common practice 11–14 fl oz, 22–168+ h',
      'Pump no air into a bag closed for days: the pH rises, ammonia harms',
      'Bag 10 in 16 fl oz; air twice the water',
    ]);
    const two = await planned({ number: 25 });
    expect(two.card?.title).toBe('25 in 2 bags, 38 fl oz: safe for 72 h');
    expect(two.card?.next).toBe('Bag 1 × 13 in 19 fl oz and 1 × 12 in 19 fl oz; air twice the water');
  });
});

describe('a slip in /pack', () => {
  const refusedBy = async (raw: Record<string, unknown>) => {
    const before = at.rows();
    const answer = await at.type('pack', raw);
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(at.rows()).toEqual(before);
    return answer;
  };

  it('of the scale is offered mended', async () => {
    const answer = await refusedBy({ number: 10, temp: 72 });
    expect(linesOf(answer)).toEqual(['Not planned: 72 °C cannot be right', '72 °F would be 22.2 °C']);
    const mended = await at.tap(answer, 'Take 22.2 °C');
    expect(linesOf(mended)).toContain('72 h: transit, slack, a day late; air 22.2 °C; pH 7.4; 15 mm');
  });

  it('of the scale is offered mended in US units too, where the air might be so cold', async () => {
    await at.type('setup business', { units: 'us' });
    const answer = await planned({ number: 10, temp: 21 });
    expect(answer.card?.title).toBe('10 shrimp: too cold after 1 h');
    expect(linesOf(answer)).toContain('21 °C would be 69.8 °F');
    const mended = await at.tap(answer, 'Take 69.8 °F');
    expect(mended.card?.title).toMatch(/: safe for 72 h$/);
  });

  it('of the length is offered mended', async () => {
    const answer = await refusedBy({ number: 10, 'length-mm': 1.5 });
    expect(linesOf(answer)).toEqual(['Not planned: 1.5 mm cannot be right', '1.5 cm would be 15 mm']);
    expect(linesOf(await at.tap(answer, 'Take 15 mm'))[2]).toContain('15 mm');
    expect(linesOf(await refusedBy({ number: 10, 'length-mm': 150 }))[1]).toBe('With a decimal point it is 15 mm');
    await at.type('setup business', { units: 'us' });
    expect(linesOf(await refusedBy({ number: 10, 'length-mm': 0.6 }))[1]).toBe('0.6 in would be 15 mm');
  });

  it.each([
    [
      { number: 0 },
      'Not planned: 0 animals cannot be right',
      'One plan is for whole animals, 1 to 200; split a larger number',
    ],
    [
      { number: 2.5 },
      'Not planned: 2.5 animals cannot be right',
      'One plan is for whole animals, 1 to 200; split a larger number',
    ],
    [
      { number: 5000 },
      'Not planned: 5000 animals cannot be right',
      'One plan is for whole animals, 1 to 200; split a larger number',
    ],
    [{ number: 10, hours: 0 }, 'Not planned: 0 h cannot be right', 'It goes from 1 to 400 h'],
    [{ number: 10, hours: 1000 }, 'Not planned: 1000 h cannot be right', 'It goes from 1 to 400 h'],
    [{ number: 10, temp: -50 }, 'Not planned: -50 °C cannot be right', 'It goes from -30 °C to 45 °C'],
    [{ number: 10, 'length-mm': 0 }, 'Not planned: 0 mm cannot be right', 'It goes from 5 to 40 mm'],
  ])('like %o is answered with what can be', async (raw, title, why) => {
    expect(linesOf(await refusedBy(raw))).toEqual([title, why, 'Send it again with the right number']);
  });

  it('that is no number at all is answered too', async () => {
    expect((await at.type('pack', { number: 'ten' })).private).toBe(true);
    expect((await at.type('pack', { number: 10, bag: 'paper' })).private).toBe(true);
  });
});
