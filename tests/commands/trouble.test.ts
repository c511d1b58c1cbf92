import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Answer } from '../../commands/command.ts';
import { businessOf, morningPost, rota } from '../../src/desk/index.ts';
import { changedThings, seenThings } from '../../src/domain/index.ts';
import { morningCard, press, type Select, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;
beforeEach(async () => {
  at = keyboardAt('2027-04-13T16:50:00Z');
  await at.begin('A1-A3');
  await at.type('setup partner', { partner: { userId: 'user-alder', name: 'alder', bot: false } });
  await at.type('count log', { tub: 'A1', saleable: 30 });
  await at.type('count log', { tub: 'A2', saleable: 30 });
});
afterEach(() => at.close());

const selectOf = ({ card }: Answer): Select => {
  const found = (card?.controls ?? []).flat().find((control) => control.kind === 'select');
  if (found?.kind !== 'select') throw new Error('no list to choose from');
  return found;
};
const settled = ({ settle }: Answer): Answer => (settle === undefined ? {} : { card: settle });

/** The two questions, answered. */
async function answered(tub: string, changed: string[], seen: string[], name = 'wren'): Promise<Answer> {
  const asked = await at.type('trouble', { tub }, { name });
  const second = settled(await at.press(selectOf(asked).press, { values: changed }, { name }));
  return at.press(selectOf(second).press, { values: seen }, { name });
}

const checks = (): [string, string, string | null][] =>
  rota(at.desk)
    .filter(({ due }) => due.chore.dependsOn === 'trouble')
    .map(({ due, on, partner }) => [due.chore.name, on, partner]);

describe('/trouble', () => {
  it('asks what changed, with what the books know, then what is seen, to the asker alone', async () => {
    await at.type('change log', { tub: 'A1', litres: 8 });
    await at.type('topup', { tub: 'A1', litres: 1 });
    await at.type('move', { from: 'A2', to: 'A1', number: 5 });
    const asked = await at.type('trouble', { tub: 'a1' });
    expectPhone(asked.card);
    expect(asked.private).toBe(true);
    expect(wordsOf(asked)).toBe(
      [
        'A1: what changed in 72 hours?',
        'More air first, if it can be had: it never harms',
        'In the books: 8 L (40 %) changed today 18:50',
        'In the books: 1 L topped up today 18:50',
        'In the books: 5 animals moved in',
        'Next: Choose all that fits; then one more question',
      ].join('\n'),
    );
    const second = settled(await at.press(selectOf(asked).press, { values: ['plants', 'food', 'nothing'] }));
    expectPhone(second.card);
    expect(wordsOf(second)).toContain('A1: what is seen?\nChanged: new food and new plants');
  });

  it('gives first aid in order with reasons, takes the tub off sale, and calls the partner', async () => {
    const answer = await answered('A1', ['plants'], ['lying still', 'at the surface']);
    expectPhone(answer.card);
    expect(answer.private).toBeUndefined();
    // How many may be promised is the model's to say.
    expect(wordsOf(answer).replace(/orange: \d+ free/, 'orange: N free')).toBe(
      [
        'A1: act, first aid in this order',
        '1. More air now: they are at the surface for oxygen',
        '2. Take the new plants out: they may carry snail or insect killer',
        '3. Take out the dead, feed nothing: both turn to ammonia',
        '4. Test ammonia, nitrite, temperature and pH: not done today',
        '5. Change 5 L (25 %, the most in a day): a poison may be in it',
        '6. Fresh carbon in the filter: it takes up what the plants brought',
        '7. Move some lively ones to A2, of the same line',
        'New water: treated, within 2 °C, in slowly; again after the next test',
        'Off sale, moss and leaves too, until you lift it',
        'orange: N free to promise now',
        'On the rota: a test the day after, two looks a day to Fri 16 Apr',
        'Changed: new plants',
        'Seen: at the surface and many lie still',
        'logged by wren 18:50',
      ].join('\n'),
    );
    expect(answer.card?.mention).toEqual(['user-alder']);
    expect(wordsOf(settled(answer))).toContain('A1: first aid is in the channel');
    expect(labelsOf(answer)).toEqual([
      ...['Changed 5 L', 'Log a reading', 'First aid again', 'Undo'],
      ...['Well again: lift the hold', 'Answer anew'],
    ]);
    expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toContain('Off sale until lifted: trouble');
  });

  it('puts a test for tomorrow and two looks a day for three days on the rota, one look for each', async () => {
    expect(checks()).toEqual([]);
    await answered('A1', ['nothing'], ['lying still']);
    expect(checks().map(([name, on]) => `${name} ${on}`)).toEqual(
      expect.arrayContaining([
        'test after trouble 2027-04-14',
        ...['14', '15', '16'].flatMap((on) => [`morning look 2027-04-${on}`, `evening look 2027-04-${on}`]),
      ]),
    );
    expect(checks()).toHaveLength(7);
    const lookers = new Set(checks().flatMap(([name, , who]) => (name.endsWith('look') ? [`${name}: ${who}`] : [])));
    expect([...lookers].sort()).toEqual(['evening look: alder', 'morning look: wren']);
  });

  it('is tested again by logging ammonia and nitrite tomorrow, and not by the test of today', async () => {
    await answered('A1', ['nothing'], ['lying still']);
    await at.type('reading log', { tub: 'A1', ammonia: 0, nitrite: 0 });
    at.advance({ hours: 14 });
    expect(checks().some(([name]) => name === 'test after trouble')).toBe(true);
    await at.type('reading log', { tub: 'A1', ammonia: 0 });
    const open = () => rota(at.desk).filter(({ due, done }) => due.chore.act === 'test' && done === null);
    expect(open()).toHaveLength(1);
    await at.type('reading log', { tub: 'A1', ammonia: 0, nitrite: 0 });
    expect(open()).toEqual([]);
    at.advance({ days: 1 });
    expect(checks().some(([name]) => name === 'test after trouble')).toBe(false);
    expect(checks()).toHaveLength(4);
    at.advance({ days: 2 });
    expect(checks()).toEqual([]);
  });

  it('follows what is measured since', async () => {
    await answered('A1', ['nothing'], ['lying still']);
    await at.type('reading log', { tub: 'A1', ammonia: 0, nitrite: 3, temp: 22, ph: 7.4 });
    const again = await at.type('trouble', { tub: 'A1' }, { name: 'alder' });
    expectPhone(again.card);
    expect(wordsOf(again)).toContain('Change 5 L (25 %, the most in a day): nitrite 3 mg/L');
    expect(wordsOf(again)).not.toContain('Test ammonia');
    expect(wordsOf(again)).toContain('logged by wren 18:50');
    expect(again.card?.mention).toBeUndefined();
    await at.tap(again, 'Changed 5 L');
    expect(wordsOf(await at.tap(again, 'First aid again'))).toContain(
      'No more water today: 25 % was changed within a day already',
    );
  });

  it('is undone as one: the hold goes with it, the checks too', async () => {
    const answer = await answered('A1', ['metal'], ['many dead']);
    const asked = await at.tap(answer, 'Undo');
    await at.tap(asked, 'Undo it');
    expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).not.toContain('Off sale');
    expect(checks()).toEqual([]);
    expect((await at.type('trouble', { tub: 'A1' })).private).toBe(true);
  });

  it('leaves a hold that runs until it is lifted as it is, and outlasts one that ends', async () => {
    await at.type('hold', { tub: 'A1', reason: 'suspected mix' });
    await answered('A1', ['nothing'], ['milky']);
    expect(wordsOf(await at.type('tub show', { tub: 'A1' }))).toContain('Off sale until lifted: suspected mix');
    await at.type('hold', { tub: 'A2', reason: 'medicine', until: '15 Apr' });
    await answered('A2', ['remedy'], ['milky']);
    expect(wordsOf(await at.type('tub show', { tub: 'A2' }))).toContain('Off sale until lifted: trouble');
  });

  it('says where it is beyond husbandry, and what must not leave the tub', async () => {
    const words = wordsOf(await answered('A1', ['remedy'], ['milky', 'growths']));
    expect(words).toContain('Beyond husbandry: growths, milky bodies and a remedy in the water');
    expect(words).toContain('Ask a vet or licensed practice; medicines are theirs to choose');
    expect(words).toContain('Its water goes to no other tub and not outdoors');
    expect(words).not.toContain('of the same line');
  });

  it('says when more is promised than is left', async () => {
    await at.type('sale add', { items: '20 orange' });
    const answer = await answered('A1', ['nothing'], ['lying still']);
    expect(wordsOf(answer)).toMatch(/orange: \d+ more are promised than can be given/);
    expect(labelsOf(answer)).toContain('Sales');
  });

  it('keeps checks that the couple changed or took off as they want them', async () => {
    await answered('A1', ['nothing'], ['lying still']);
    await at.type('chore edit', { chore: 'evening look', off: true });
    await answered('A2', ['nothing'], ['lying still']);
    expect(checks().filter(([name]) => name === 'evening look')).toEqual([]);
    expect(checks().filter(([name]) => name === 'morning look')).toHaveLength(6);
  });

  it('fits a phone whatever is chosen', async () => {
    expectPhone((await answered('A1', [...changedThings], [...seenThings])).card);
  });

  it('of a tub that is gone, or an empty choice, writes nothing', async () => {
    const before = at.rows();
    await at.press(press('trouble-ask', { tub: 99 }));
    await at.press(press('trouble-changed', { tub: 1, from: 'ask' }), { values: [] });
    await at.press(press('trouble-seen', { tub: 1, changed: '' }), { values: ['milky'] });
    await at.press(press('trouble-seen', { tub: 1, changed: 'a' }), { values: ['something else'] });
    expect((await at.type('trouble', { tub: 'Z9' })).private).toBe(true);
    expect(at.rows()).toEqual(before);
  });
});

describe('several deaths in a tub', () => {
  it('start the questions under the card of the loss, which stays', async () => {
    const first = await at.type('loss', { tub: 'A1', number: 1 });
    expect((first.card?.controls ?? []).flat().some(({ kind }) => kind === 'select')).toBe(false);
    const many = await at.type('loss', { tub: 'A1', number: 2 });
    expectPhone(many.card);
    const second = await at.press(selectOf(many).press, { values: ['nothing'] }, { name: 'alder' });
    expect(second.settle).toBeUndefined();
    expect(second.private).toBe(true);
    const aid = await at.press(selectOf(second).press, { values: ['many dead'] }, { name: 'alder' });
    expect(wordsOf(aid)).toContain('A1: act, first aid in this order');
    expect(aid.card?.mention).toEqual(['user-wren']);
  });

  it('lead to the first aid that runs already', async () => {
    await answered('A1', ['nothing'], ['many dead']);
    const more = await at.type('loss', { tub: 'A1', number: 4 });
    expect(labelsOf(more)).toContain('First aid');
    expect(wordsOf(await at.tap(more, 'First aid'))).toContain('A1: act, first aid in this order');
  });
});

it('the morning post says which tubs are in trouble, and since when', async () => {
  await answered('A1', ['nothing'], ['many dead']);
  at.advance({ hours: 14 });
  const voice = voiceFor(businessOf(at.desk), at.desk.now());
  const card = morningCard(voice, morningPost(at.desk));
  expect(card.why).toContain('In trouble: A1 (day 1 of 3)');
});
