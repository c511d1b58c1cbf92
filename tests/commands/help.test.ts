import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { helpTopics } from '../../src/reply/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(() => {
  at = keyboardAt('2027-04-13T16:50:00Z');
});
afterEach(() => at.close());

describe('/help', () => {
  it('is the home card, for the asker alone', async () => {
    const answer = await at.type('help');
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(answer.card?.title).toBe('Berried: set-up is not whole yet');
    expect(labelsOf(answer)).toEqual(['Log a reading', 'Next change', 'Stock', 'New sale', 'Pack', 'Undo']);
  });

  it.each(Object.keys(helpTopics))('explains %s on a phone', async (topic) => {
    const answer = await at.type('help', { topic });
    expectPhone(answer.card);
    expect(answer.private).toBe(true);
    expect(await at.press({ act: 'help-topic', args: {} }, { values: [topic] })).toMatchObject({
      private: true,
      card: { title: answer.card?.title, why: answer.card?.why },
    });
  });

  it('knows the topics of its list only', async () => {
    expect(wordsOf(await at.type('help', { topic: 'whales' }))).toContain('/help was not understood');
  });
});

describe('the home card', () => {
  it('leads to the reading of a tub in two taps', async () => {
    await at.begin('A1-A2');
    const pick = await at.tap(await at.type('help'), 'Log a reading');
    expect(pick).toMatchObject({ private: true, card: { title: 'Log a reading of which tub?' } });
    const form = await at.press({ act: 'picked-tub', args: { purpose: 'reading', from: 0 } }, { values: ['2'] });
    expect(form.form?.title).toBe('Reading of A2');
  });

  it('leads through the first evening with forms', async () => {
    await at.type('setup partner', { partner: { userId: 'user-wren', name: 'wren', bot: false } });
    const home = await at.type('help');
    expectPhone(home.card);
    expect(labelsOf(home)[0]).toBe('Add a line');
    expect((await at.tap(home, 'Add a line')).form?.fields.map(({ id }) => id)).toEqual(['line', 'price']);
    const sent = { act: 'line-send', args: {} } as const;
    expect(wordsOf(await at.press(sent, { fields: { line: 'jade' } }, { name: 'alder', owner: false }))).toContain(
      'Only an owner may use /setup line',
    );
    const wrong = await at.press(sent, { fields: { line: 'jade', price: 'two' } });
    expect(wordsOf(wrong)).toContain('Not a number: price "two"');
    expect((await at.tap(wrong, 'Correct it')).form?.fields[0]?.value).toBe('jade');
    const added = await at.press(sent, { fields: { line: 'jade', price: '2,50' } });
    expect(wordsOf(added)).toContain('jade: line added\n€2.50 each');
    expect(labelsOf(added)).toEqual(['Add tubs']);
    const form = (await at.tap(added, 'Add tubs')).form;
    expect(form?.fields.find(({ id }) => id === 'line')?.value).toBe('jade');
    const tubs = await at.press(
      { act: 'tubs-send', args: {} },
      { fields: { name: 'A1-A3', line: 'jade', litres: '30' } },
    );
    expect(wordsOf(tubs)).toContain('3 tubs added: A1 to A3');
    expect(labelsOf(await at.type('help'))[0]).toBe('Log a reading');
  });

  it('says that no holidays are known until the region is', async () => {
    await at.begin('A1-A2');
    const unknown = 'No public holidays are known: set your region with /setup business';
    expect(wordsOf(await at.type('help'))).toContain(unknown);
    expectPhone((await at.type('help')).card);
    await at.type('setup business', { region: 'NL' });
    expect(wordsOf(await at.type('help'))).not.toContain(unknown);
  });

  it('leads to a sale, with an order in the names of this business', async () => {
    await at.begin('A1-A2');
    const form = await at.tap(await at.type('help'), 'New sale');
    expect(form.form?.fields[0]?.hint).toBe('20 orange');
    await at.type('setup line', { line: 'green' });
    await at.type('goods', { name: 'fern', price: 2, add: 5 });
    await at.type('goods', { name: 'box', add: 5 });
    expect(wordsOf(await at.type('sale add', { items: '5 whales' }))).toContain(
      'Next: Write it like "20 orange, 10 green + 2 fern"',
    );
  });

  it('leads through the rack when there are many tubs', async () => {
    await at.begin('A1-A40');
    await at.type('tub add', { name: 'B1-B20', line: 'orange', litres: 25 });
    const racks = await at.tap(await at.type('help'), 'Log a reading');
    expect(racks.card?.title).toBe('Which rack?');
    const tubs = await at.press({ act: 'pick-rack', args: { purpose: 'count' } }, { values: ['B'] });
    expect(tubs.settle?.controls?.[0]?.[0]).toMatchObject({ kind: 'select', options: { length: 20 } });
    expect(
      (await at.press({ act: 'picked-tub', args: { purpose: 'count', from: 0 } }, { values: ['41'] })).form?.title,
    ).toBe('Count of B1');
  });

  it('has nothing to undo before the first entry, and says where to begin without tubs', async () => {
    expect(wordsOf(await at.press({ act: 'undo-last', args: {} }))).toContain('Nothing of yours to undo');
    expect(wordsOf(await at.press({ act: 'pick-tub', args: { purpose: 'reading' } }))).toBe(
      'No tubs yet\nNext: Add them first',
    );
  });
});
