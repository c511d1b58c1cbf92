import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Answer } from '../../commands/command.ts';
import { businessOf, eveningState, morningPost, rotaToday } from '../../src/desk/index.ts';
import { eveningCard, morningCard, press, voiceFor } from '../../src/reply/index.ts';
import { expectPhone } from '../reply/phone.ts';
import { labelsOf, wordsOf } from '../support/answers.ts';
import { type Keyboard, keyboardAt } from '../support/keyboard.ts';

let at: Keyboard;

/** Two racks, a week old, with only three chores on, all due today: feeding by rack, changes by tub, and the look-round. */
beforeEach(async () => {
  at = keyboardAt('2027-04-01T16:50:00Z');
  await at.begin('A1-A2');
  await at.type('setup partner', { partner: { userId: 'user-alder', name: 'alder', bot: false } });
  await at.type('tub add', { name: 'B1', line: 'orange', litres: 40 });
  for (const { name } of at.desk.store.chores.chores()) {
    if (!['feed', 'water change', 'look-round'].includes(name)) await at.type('chore edit', { chore: name, off: true });
  }
  await at.type('setup water', { 'min-percent': 25, 'max-percent': 25 }, { owner: true });
  at.advance({ days: 8 });
});
afterEach(() => at.close());

const settled = ({ settle }: Answer): Answer => (settle === undefined ? {} : { card: settle });
const begun = () => at.press(press('round', {}));
const tap = async (answer: Answer, label: string, name = 'wren') => settled(await at.tap(answer, label, { name }));
const left = (): number => rotaToday(at.desk).filter(({ done }) => done === null).length;

describe('the round', () => {
  it('goes from rack to tub with litres and jugs, tap by tap, to the end', async () => {
    expect(left()).toBe(6);
    const rackA = await begun();
    expectPhone(rackA.card);
    expect(rackA.private).toBeUndefined();
    expect(wordsOf(rackA)).toMatch(/^Round 1 of 6: rack A, feed\nOn the rota for (wren|alder)$/);
    expect(labelsOf(rackA)).toEqual(['Fed rack A', 'Next', 'Leave the round']);

    const a1 = await tap(rackA, 'Fed rack A');
    expectPhone(a1.card);
    expect(wordsOf(a1)).toMatch(/^Round 2 of 6: A1, change 5 L\n5 L is 2.5 jugs of 2 L\n/);
    expect(wordsOf(a1)).toContain('Just done by wren: feed, rack A');
    expect(labelsOf(a1)).toEqual(['Changed 5 L', 'Next', 'Trouble', 'Undo', 'Leave the round']);

    const a2 = await tap(a1, 'Changed 5 L');
    expect(wordsOf(a2)).toContain('Round 3 of 6: A2, change');
    expect(wordsOf(a2)).toContain('Just done by wren: water change, A1');
    const b = await tap(a2, 'Next');
    expect(wordsOf(b)).toContain('Round 4 of 6: rack B, feed');
    const b1 = await tap(b, 'Fed rack B');
    const rest = await tap(b1, 'Next');
    expect(wordsOf(rest)).toContain('Round 6 of 6: the rest, look-round');
    const end = await tap(rest, 'look-round done');
    expectPhone(end.card);
    expect(wordsOf(end)).toMatch(
      /^Round over: 2 chores left\nLeft: water change A2 and B1\nJust done by wren: look-round$/,
    );
    const again = await tap(end, 'Go round what is left');
    expect(wordsOf(again)).toContain('Round 3 of 6: A2, change');
  });

  it('logs "fed rack A" in two taps from the morning post', async () => {
    const morning = { card: morningCard(voiceFor(businessOf(at.desk), at.desk.now()), morningPost(at.desk)) };
    const rackA = await at.tap(morning, 'Start the round');
    expect(rackA.settle).toBeUndefined();
    await at.tap(rackA, 'Fed rack A');
    expect(at.desk.store.entries.latest(1)[0]?.summary).toBe('feed, rack A: done');
  });

  it('is left, and taken up by the other partner where it was left', async () => {
    const a1 = await tap(await begun(), 'Fed rack A');
    const gone = await tap(a1, 'Leave the round');
    expectPhone(gone.card);
    expect(wordsOf(gone)).toContain('Round left: 1 chore done, 5 to do\nLeft by wren');
    const taken = await tap(gone, 'Take it up', 'alder');
    expect(wordsOf(taken)).toContain('Round 2 of 6: A1, change');
    const next = await tap(taken, 'Changed 5 L', 'alder');
    expect(wordsOf(next)).toContain('Just done by alder: water change, A1');
  });

  it('knows what was logged elsewhere meanwhile, and logs nothing twice', async () => {
    const a1 = await tap(await begun(), 'Fed rack A');
    await at.type('change log', { tub: 'A1', litres: 5 }, { name: 'alder' });
    const before = at.rows();
    const late = await at.tap(a1, 'Changed 5 L');
    expect(wordsOf(late)).toContain('That was already done');
    expect(late.private).toBe(true);
    expect(wordsOf(settled(late))).toContain('Round 3 of 6: A2');
    expect(at.rows()).toEqual(before);
  });

  it('brings a tub back where harm makes its change due at once, and not one that was changed yesterday', async () => {
    await at.type('change log', { tub: 'A1', litres: 5, when: 'yesterday 18:00' }, { name: 'alder' });
    const rackA = await begun();
    expect(wordsOf(await tap(rackA, 'Next'))).toContain(': A2, change');
    await at.type('reading log', { tub: 'A1', ammonia: 8, ph: 7.4, temp: 22 });
    const a1 = await tap(rackA, 'Next');
    expect(wordsOf(a1)).toContain(': A1, change');
    expect(wordsOf(await tap(a1, 'Changed 5 L'))).toContain('Just done by wren: water change, A1');
  });

  it('undoes the tap before', async () => {
    const a1 = await tap(await begun(), 'Fed rack A');
    await at.tap(await at.tap(a1, 'Undo'), 'Undo it');
    expect(left()).toBe(6);
  });

  it('ticks several chores of a stop singly or at once, readings by what the kit shows', async () => {
    await at.type('chore edit', { chore: 'front glass', off: false });
    await at.type('chore edit', { chore: 'test nitrate', off: false });
    at.advance({ days: 30 });
    const a1 = await tap(await begun(), 'Next');
    expectPhone(a1.card);
    expect(wordsOf(a1)).toContain('Also here: front glass and test nitrate');
    expect(labelsOf(a1)).toEqual(
      expect.arrayContaining(['front glass done', 'All 2 done', 'Log the reading', 'Next', 'Trouble']),
    );
    const done = await tap(a1, 'All 2 done');
    expect(wordsOf(done)).toContain('A1, test nitrate');
    expect(labelsOf(done)).toEqual(['Log the reading', 'Next', 'Trouble', 'Undo 2', 'Leave the round']);
  });

  it('warns of a tub that is off sale or in trouble', async () => {
    await at.type('hold', { tub: 'A1', reason: 'quarantine' });
    expect(wordsOf(await tap(await begun(), 'Next'))).toContain('Off sale: quarantine; its own net');
    await at.press(press('trouble-seen', { tub: 2, changed: 'm' }), { values: ['milky'] });
    const a1 = await tap(await begun(), 'Next');
    expect(wordsOf(await tap(a1, 'Next'))).toContain('In trouble: look twice, its own net, feed nothing');
  });

  it('of yesterday ticks nothing, and goes on with today', async () => {
    const rackA = await begun();
    at.advance({ days: 1 });
    const before = at.rows();
    expect(wordsOf(await tap(rackA, 'Fed rack A'))).toContain('rack A, feed');
    expect(at.rows()).toEqual(before);
  });

  it('tells of jugs of the set size', async () => {
    await at.type('setup water', { jug: 5 }, { owner: true });
    expect(wordsOf(await tap(await begun(), 'Next'))).toContain('5 L is 1 jug of 5 L');
    await at.type('setup water', { 'source-gh': 12, 'target-gh': 6, jug: 4 }, { owner: true });
    expect(wordsOf(await tap(await begun(), 'Next'))).toContain('5 L is 1.25 jugs of 4 L (2.5 tap + 2.5 pure)');
  });

  it('ends at once where nothing is open', async () => {
    for (let stop = await begun(), taps = 0; taps < 12 && left() > 0; taps += 1) {
      const [label = ''] = labelsOf(stop);
      stop = await tap(stop, label);
    }
    const none = await begun();
    expectPhone(none.card);
    expect(wordsOf(none)).toBe('Round done, all 6 chores');
    const evening = eveningCard(voiceFor(businessOf(at.desk), at.desk.now()), eveningState(at.desk));
    expect(evening.title).toContain('nothing left');
  });
});
