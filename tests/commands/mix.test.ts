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

const setTap = () =>
  at.type('setup water', { 'source-gh': 12, 'source-kh': 8, 'source-tds': 300, 'source-nitrate': 25 });

const mixed = async (raw: Record<string, unknown>): Promise<string> => {
  const answer = await at.type('mix', { litres: 22, ...raw });
  expectPhone(answer.card);
  return wordsOf(answer);
};

describe('/mix', () => {
  beforeEach(setTap);

  it('has the recipe in the first line, what decided it and what comes out', async () => {
    const answer = await at.type('mix', { litres: 22, gh: 6 });
    expectPhone(answer.card);
    expect(answer.private).toBeUndefined();
    expect(wordsOf(answer)).toBe(
      [
        '11 L tap + 11 L pure',
        'GH decides: 6 °dGH asked, 12 °dGH in the tap',
        'Gives GH 6 °dGH · KH 4 °dKH · TDS 150 mg/L · nitrate 12.5 mg/L',
        'Next: Dechlorinate the tap water; match the tub within 2 °C',
      ].join('\n'),
    );
    expect(labelsOf(answer)).toEqual(['Next change']);
  });

  it.each([
    [{ nitrate: 10 }, '8.8 L tap + 13.2 L pure\nNitrate decides: at most 10 mg/L asked, 25 mg/L in the tap\n'],
    [{ nitrate: 40 }, '22 L tap, no pure water needed\n'],
    [{ gh: 0 }, '22 L pure, no tap water\n'],
    [{ gh: 6, kh: 4 }, '11 L tap + 11 L pure\nGH and KH decide together\n'],
    [
      { gh: 15, 'salt-gh': 3 },
      '22 L tap + 2.2 g salt\nGH decides: 15 °dGH asked, 12 °dGH in the tap\nGives GH 15 °dGH',
    ],
    [
      { gh: 6, nitrate: 5, 'salt-gh': 3 },
      '4.4 L tap + 17.6 L pure + 2.6 g salt\nNitrate decides the tap water, GH the salt\n',
    ],
    [{ litres: 2, gh: 12.6, 'salt-gh': 3 }, '2 L tap + 0.04 g salt\n'],
    [{ litres: 2000, gh: 50, 'salt-gh': 0.5, nitrate: 12.5 }, '1000 L tap + 1000 L pure + 17.6 kg salt\n'],
  ])('for %o is %s', async (raw, words) => {
    expect(await mixed(raw)).toContain(words);
  });

  it('says how to handle the salt, and no dechlorinating without tap water', async () => {
    expect(await mixed({ gh: 15, 'salt-gh': 3 })).toContain(
      'Next: Dissolve the salt; dechlorinate the tap water; match the tub within 2 °C',
    );
    expect(await mixed({ gh: 0 })).toContain('Next: Match the tub within 2 °C');
  });

  it('comes nearest to targets that contradict and names the misses', async () => {
    expect(await mixed({ gh: 9, kh: 2 })).toContain(
      'Nearest: 13.1 L tap + 8.9 L pure\nGH 1.9 under, KH 2.8 over what was asked\nGives GH 7.1 °dGH · KH 4.8 °dKH',
    );
    expect(await mixed({ gh: 9, nitrate: 10 })).toContain(
      'Nearest: 8.8 L tap + 13.2 L pure\nGH 4.2 under what was asked',
    );
    // A tenth of tap water by nitrate: KH 0.8, GH from the salt.
    expect(await mixed({ gh: 6, kh: 4, nitrate: 2.5, 'salt-gh': 3 })).toContain(
      'Nearest: 2.2 L tap + 19.8 L pure\nwith 3.5 g of salt\nKH 3.2 under what was asked\n',
    );
  });

  it('says gallons too where these are the units', async () => {
    await at.type('setup business', { units: 'us' });
    expect(await mixed({ gh: 6 })).toContain('Tap 11 L (2.9 gal) · pure 11 L (2.9 gal)\n');
    expect(await mixed({ gh: 0 })).toContain('Pure 22 L (5.8 gal)\n');
    expect(await mixed({ gh: 12 })).toContain('match the tub within 4 °F');
  });
});

describe('/mix without a recipe', () => {
  const refusedBy = async (raw: Record<string, unknown>) => {
    const before = at.rows();
    const answer = await at.type('mix', { litres: 22, ...raw });
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(at.rows()).toEqual(before);
    return answer;
  };

  it('asks for a target', async () => {
    expect(wordsOf(await refusedBy({}))).toBe(
      'No recipe: nothing to aim at\nNext: Give gh, kh, tds or nitrate, or several of them',
    );
  });

  it('names the settings that are missing', async () => {
    expect(wordsOf(await refusedBy({ gh: 6 }))).toBe(
      [
        'No recipe: tap GH not known',
        'A mix is reckoned from what the tap water holds',
        'Next: Measure, then /setup water source-gh',
      ].join('\n'),
    );
    expect(wordsOf(await refusedBy({ gh: 6, kh: 4, tds: 100 }))).toContain('No recipe: tap GH, KH and TDS not known');
  });

  it('goes on with what is known', async () => {
    await at.type('setup water', { 'source-gh': 12 });
    expect(await mixed({ gh: 6 })).toContain('Gives GH 6 °dGH · nitrate 2.5 mg/L\nNot known of the tap: KH and TDS');
  });

  it('over the tap offers what the tap has', async () => {
    await setTap();
    const answer = await at.type('mix', { litres: 22, gh: 15 });
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toBe(
      [
        'No recipe: the tap has only 12 °dGH',
        'GH 15 °dGH was asked; pure water only lowers it',
        "Next: Give salt-gh from a mineral salt's label, or ask for less",
      ].join('\n'),
    );
    expect(wordsOf(await at.tap(answer, 'Take 12 °dGH'))).toContain('22 L tap, no pure water needed');
    expect(wordsOf(await at.type('mix', { litres: 22, kh: 12, 'salt-gh': 3 }))).toContain('Give salt-kh from');
    expect(wordsOf(await at.type('mix', { litres: 22, tds: 400 }))).toContain('the tap has only 300 mg/L');
  });

  it.each([
    [{ litres: 0 }, 'No recipe: 0 L cannot be right\nIt goes from 1 to 2000'],
    [{ gh: 60 }, 'No recipe: 60 °dGH cannot be right\nIt goes from 0 to 50'],
    [{ tds: 1e12 }, 'No recipe: 1.0e+12 mg/L TDS cannot be right'],
    [{ gh: 6, 'salt-gh': 40 }, 'No recipe: 40 °dGH of salt cannot be right\nIt goes from 0.1 to 10'],
  ])('refuses %o', async (raw, words) => {
    expect(wordsOf(await refusedBy(raw))).toContain(words);
  });
});
