import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { expectPhone } from '../reply/phone.ts';
import { wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(() => {
  at = keyboardAt('2027-04-13T16:50:00Z');
});
afterEach(() => at.close());

const wren = { userId: 'user-wren', name: 'wren', bot: false };
const alder = { userId: 'user-alder', name: 'alder', bot: false };

describe('the first evening', () => {
  it('names the one next step until set-up is whole', async () => {
    const nextOf = async (path: string, raw: Record<string, unknown> = {}) => (await at.type(path, raw)).card?.next;
    expect(await nextOf('help')).toBe('Add the people with /setup partner, yourself first');
    expect(await nextOf('setup business')).toBe('Add the people with /setup partner, yourself first');
    expect(await nextOf('setup partner', { partner: wren })).toBe('Add your first colour line with /setup line');
    expect(await nextOf('setup water')).toBe('Add your first colour line with /setup line');
    expect(await nextOf('tub add', { name: 'A1', line: 'orange', litres: 25 })).toBe('Add it with /setup line');
    expect(await nextOf('setup line', { line: 'orange' })).toBe('Add your tubs with /tub add; "A1-A6" makes six');
    expect(await nextOf('tub add', { name: 'A1-A6', line: 'orange', litres: 25 })).toBe(
      'Count A1 with /count log when you can',
    );
    expect(await nextOf('setup water')).toBeUndefined();
    expect((await at.type('help')).card?.title).toMatch(/^Today: /);
  });
});

describe('the settings', () => {
  it.each(['business', 'water', 'dispatch', 'terms', 'posts'])(
    '%s shows itself without options, privately, and writes nothing',
    async (page) => {
      const before = at.rows();
      const answer = await at.type(`setup ${page}`);
      expectPhone(answer.card);
      expect(answer.private).toBe(true);
      expect(answer.card?.title).toMatch(/: as it stands$/);
      expect(at.rows()).toEqual(before);
    },
  );

  it('say which open sales they put on a day that is not good, once, with a button that moves them', async () => {
    await at.begin('A1-A2');
    await at.type('count log', { tub: 'A1', saleable: 60 });
    await at.type('sale add', { items: '5 orange', 'dispatch-on': '2027-04-21' });
    const answer = await at.type('setup dispatch', { days: 'Mon' });
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toContain('Not on a good day now: sale 1\nNext: Move the sales');
    expect(wordsOf(await at.type('setup dispatch', { 'max-temp': 25 }))).not.toContain('good day');
    expect(wordsOf(await at.tap(answer, 'Move all 1'))).toContain('Sale 1 to Mon 26 Apr');
  });

  it('are set in words and figures', async () => {
    const dispatch = await at.type('setup dispatch', {
      days: 'Mon-Thu',
      'transit-days': 2,
      'slack-days': 0,
      'min-temp': 3,
    });
    expect(wordsOf(dispatch)).toContain(
      'Parcels leave Mon, Tue, Wed, Thu\nOn the way 2 days, no slack\nNight low at least 3 °C',
    );
    expect(wordsOf(await at.type('setup terms', { 'keep-days': 0 }))).toContain('An unpaid sale is not kept');
    expect(wordsOf(await at.type('setup posts', { 'weekly-day': 'Sat', evening: '17.30' }))).toContain(
      'Morning 07:30 · evening 17:30\nWeek Sat 17:00',
    );
    expect(
      wordsOf(await at.type('setup business', { region: 'gb-eng', currency: 'gbp', timezone: 'Europe/London' })),
    ).toContain('Time zone Europe/London\nRegion GB-ENG, for public holidays\nCurrency GBP');
    expect(wordsOf(await at.type('setup water', { 'kit-steps': '0 10 25 50', 'source-nitrate': 30 }))).toContain(
      'Kit steps 0 10 25 50\nThe source water is not under the limit',
    );
  });

  it('take temperatures in Fahrenheit from a business in US units', async () => {
    await at.type('setup business', { units: 'us' });
    expect(wordsOf(await at.type('setup dispatch', { 'min-temp': 41, 'max-temp': 77 }))).toContain(
      'Night low at least 41 °F, day high at most 77 °F',
    );
    expect(wordsOf(await at.type('setup dispatch', { 'max-temp': 200 }))).toContain(
      'Not logged: 200 °F as the high cannot be right\nIt goes from -58 °F to 140 °F',
    );
  });

  it.each([
    ['setup business', { timezone: 'Europe/Atlantis' }, 'the time zone was not understood'],
    ['setup business', { region: 'Narnia' }, 'the region was not understood'],
    ['setup business', { currency: 'shells' }, 'the currency was not understood'],
    ['setup water', { 'source-nitrate': -5 }, '-5 mg/L at source cannot be right'],
    ['setup water', { 'min-percent': 40 }, '40 % cannot be right\nIt goes from 1 to 25'],
    ['setup dispatch', { days: 'Blursday' }, 'the days were not understood'],
    ['setup posts', { morning: '25:00' }, 'the time was not understood'],
    ['setup line', { line: 'orange', price: -1 }, '-1 as a price cannot be right'],
    ['setup outlet', { outlet: 'market', percent: 101 }, '101 % as a share cannot be right'],
    ['setup partner', { partner: { ...wren, bot: true } }, 'wren is a program'],
    ['setup partner', { partner: wren, 'away-from': 'whenever' }, 'the day was not understood'],
    [
      'setup partner',
      { partner: wren, 'away-from': '2027-05-10', 'away-to': '2027-05-01' },
      'the day was not understood',
    ],
  ])('%s %o is refused, privately, and keeps none of it', async (path, raw, words) => {
    const before = at.rows();
    const answer = await at.type(path, raw);
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(wordsOf(answer)).toContain(`Not logged: ${words}`);
    expect(at.rows()).toEqual(before);
  });
});

describe('people, lines and outlets', () => {
  it('are said as they stand', async () => {
    await at.type('setup partner', { partner: wren });
    const partner = await at.type('setup partner', {
      partner: alder,
      share: 40,
      never: 'feed, front glass',
      'away-from': '1 May',
      'away-to': '10 May',
    });
    expectPhone(partner.card);
    expect(wordsOf(partner)).toContain(
      'alder: partner added\nChores: 40 %\nNever: feed, front glass\nAway from Sat 1 May to Mon 10 May',
    );
    expect(wordsOf(await at.type('setup partner', { partner: alder, never: 'none', 'away-from': 'none' }))).not.toMatch(
      /Never|Away/,
    );
    expect(wordsOf(await at.type('setup partner', { partner: wren, remove: true }))).toContain(
      'wren is the only owner',
    );
    expect(wordsOf(await at.type('setup partner', { partner: alder, remove: true }))).toContain(
      'alder: no longer a partner',
    );
    expect(wordsOf(await at.type('setup line', { line: 'orange', price: 2.5, 'hold-back': 1 }))).toContain(
      'orange: line added\n€2.50 each\nSaleable from 15 mm · 1 breeder held back per tub',
    );
    expect(
      wordsOf(await at.type('setup outlet', { outlet: 'market', percent: 8, fixed: 0.35, 'on-postage': true })),
    ).toContain('market: outlet added\nTakes 8 % of goods and postage plus €0.35 a sale');
  });
});
