import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { businessOf, morningPost, rota } from '../../src/desk/index.ts';
import { morningCard, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { buttonsOf, labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

const wren = { userId: 'user-wren', name: 'wren', bot: false };
const alder = { userId: 'user-alder', name: 'alder', bot: false };

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-07-12T16:50:00Z');
  await at.begin('A1-A3');
  await at.type('setup partner', { partner: alder });
  await at.type('count log', { tub: 'A1', saleable: 60, method: 'full' });
});
afterEach(() => at.close());

const goAway = (partner: typeof wren, from: string, to: string) =>
  at.type('setup partner', { partner, 'away-from': from, 'away-to': to }, { owner: true });

describe('a partner who is away', () => {
  it('has no chores on those days, and the other has them', async () => {
    await goAway(wren, '13 Jul', '16 Jul');
    const owners = new Set(
      rota(at.desk).flatMap(({ on, partner }) => (on >= '2027-07-13' && on <= '2027-07-16' ? [partner] : [])),
    );
    expect([...owners]).toEqual(['alder']);
  });

  it('makes a dispatch day asked about while a claim may come, with the reason', async () => {
    const set = await goAway(wren, '3 Aug', '12 Aug');
    expect(wordsOf(set)).not.toContain('cover');
    const asked = await at.type('dispatch check', { date: '4 Aug' });
    expectPhone(asked.card);
    expect(wordsOf(asked)).toContain('Wed 4 Aug: ask');
    expect(wordsOf(asked)).toContain('wren is away Tue 3 Aug to Thu 12 Aug, when a claim may come');
    expect(wordsOf(await at.type('dispatch check', { date: '27 Jul' }))).toContain('Tue 27 Jul: may go');
  });
});

describe('both away at once', () => {
  beforeEach(async () => {
    await goAway(wren, '1 Aug', '12 Aug');
  });

  it('closes dispatch so early that no claim falls into it, and names the last day', async () => {
    await at.type('sale add', { items: '5 orange', 'dispatch-on': '28 Jul' });
    const set = await goAway(alder, '30 Jul', '20 Aug');
    expectPhone(set.card);
    expect(wordsOf(set)).toContain('All away Sun 1 Aug to Thu 12 Aug: the cover card is ready');
    expect(wordsOf(set)).toContain('Last parcel before it: Wed 28 Jul');
    expect(labelsOf(set)).toEqual(['Cover card']);
    for (const [date, verdict] of [
      ['28 Jul', 'Wed 28 Jul: ask'],
      ['9 Aug', 'Mon 9 Aug: no'],
      ['16 Aug', 'Mon 16 Aug: ask'],
    ] as const) {
      expect(wordsOf(await at.type('dispatch check', { date }))).toContain(verdict);
    }
    const no = await at.type('dispatch check', { date: '2 Aug' });
    expectPhone(no.card);
    expect(wordsOf(no)).toContain('All away Sun 1 Aug to Thu 12 Aug: nobody packs or answers a claim');
  });

  it('moves the sales that would fall into it', async () => {
    const sale = await at.type('sale add', { items: '5 orange', 'dispatch-on': '2 Aug' });
    expect(wordsOf(sale)).toContain('ask, Mon 2 Aug');
    const set = await goAway(alder, '30 Jul', '20 Aug');
    expectPhone(set.card);
    expect(wordsOf(set)).toContain('Not on a good day now: sale 1');
    expect(labelsOf(set)).toEqual(['Move all 1', 'Cover card']);
    await at.tap(set, 'Move all 1');
    expect(wordsOf(await at.type('sale show', { sale: '1' }))).toContain('Mon 16 Aug');
  });

  it('makes a card for whoever looks after the tubs, with a text to print', async () => {
    for (let week = 0; week < 4; week += 1) await at.type('topup', { tub: 'A1', litres: 2 });
    await at.type('hold', { tub: 'A2', reason: 'quarantine' });
    const set = await goAway(alder, '1 Aug', '8 Aug');
    const card = await at.tap(set, 'Cover card');
    expectPhone(card.card);
    expect(card.private).toBeUndefined();
    expect(wordsOf(card)).toBe(
      [
        'Cover, Sun 1 Aug to Sun 8 Aug',
        'Before: leaves by Sun 25 Jul, a usual change Sat 31 Jul, no extra food',
        'Last parcel Wed 28 Jul',
        '1. Look every day, at least every second: bubbles in every tub',
        '2. Top up to the line with the marked can, slowly, no more',
        '3. Do not feed, and change no water: they have enough in the tub',
        '4. Move nothing between tubs, no net, no plant, no animal',
        '5. Call if bubbles stop, over 28 °C, three dead or more, a leak',
        '3 tubs are listed in the file',
        'Next: Write your phone numbers in, and print it or send it on',
      ].join('\n'),
    );
    const [file] = card.card?.files ?? [];
    expect(file?.name).toBe('cover-2027-08-01.txt');
    expect(file?.text).toContain('Shrimp tubs, Sun 1 Aug to Sun 8 Aug\n1. Look every day');
    expect(file?.text).toContain('Whom to call\n  wren: ____________________\n  alder: ____________________\n');
    expect(file?.text).toContain('unplug');
    expect(file?.text).toContain(
      'Rack A\n  [ ] A1: about 1 L a week\n  [ ] A2: in trouble or quarantine: look at it last\n  [ ] A3\n',
    );
  });

  it('is spoken of in the morning from two weeks before until it is over', async () => {
    await goAway(alder, '1 Aug', '8 Aug');
    const morning = () => {
      const card = morningCard(voiceFor(businessOf(at.desk), at.desk.now()), morningPost(at.desk));
      return { card };
    };
    const line = 'All away Sun 1 Aug to Sun 8 Aug: the cover card is ready';
    expect(wordsOf(morning())).not.toContain(line);
    at.advance({ days: 6 });
    expect(wordsOf(morning())).toContain(line);
    expect(labelsOf(morning())).toContain('Cover card');
    at.advance({ days: 21 });
    expect(wordsOf(morning())).toContain(line);
    at.advance({ days: 1 });
    expect(wordsOf(morning())).not.toContain(line);
  });

  it('taken back, leaves no card', async () => {
    const set = await goAway(alder, '1 Aug', '8 Aug');
    await at.type('setup partner', { partner: alder, 'away-from': 'none' }, { owner: true });
    const [pressed] = buttonsOf(set);
    if (pressed === undefined) throw new Error('no button');
    expect(wordsOf(await at.press(pressed.press))).toContain('Somebody is there');
    expect(wordsOf(await at.type('dispatch check', { date: '4 Aug' }))).toContain('ask');
  });
});
