import { afterEach, describe, expect, it } from 'vitest';
import type { Answer } from '../../../commands/command.ts';
import { rotaActs } from '../../../commands/rotaTicks.ts';
import { undoActs } from '../../../commands/undo.ts';
import { addTubs, logChange, rotaToday, setLine, setPartner } from '../../../src/desk/index.ts';
import { expectPhone } from '../../reply/phone.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { taken } from '../../support/sellingDesk.ts';
import { ctxOf } from '../../support/typing.ts';

const opened: TestDesk[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

/** One rack of three tubs; it is the morning a week after they were set up. */
function weekOld(): TestDesk {
  const test = deskAt('2027-04-12T18:00:00Z');
  opened.push(test);
  for (const name of ['wren', 'alder']) {
    taken(setPartner(test.desk, test.by('wren'), { partner: { userId: `user-${name}`, name, bot: false } }));
  }
  taken(setLine(test.desk, test.by('wren'), { line: 'jade' }));
  taken(addTubs(test.desk, test.by('wren'), { names: ['A1', 'A2', 'A3'], line: 'jade', litres: 30 }));
  test.advance({ days: 6, hours: 12 });
  return test;
}

const none = { values: [], fields: {} };
const post = { place: 'morning', day: '2027-04-19' };
const pressRack = (test: TestDesk, name: string, args = post): Promise<Answer> =>
  rotaActs['rota-rack']({ ...args, tub: 1 }, ctxOf(test, name));
const tickOf = (test: TestDesk, chore: string, tub: string | null): string => {
  const item = rotaToday(test.desk).find(
    ({ due: { chore: its, target } }) =>
      its.name === chore && (tub === null || (target.of === 'tub' && target.name === tub)),
  );
  return `${item?.due.chore.id}.${item?.tubId ?? ''}`;
};

describe('a press under the morning post', () => {
  it('makes the post anew with who did what, and offers the presser alone the way back', async () => {
    const test = weekOld();
    const { settle, card, private: isPrivate } = await pressRack(test, 'wren');
    expect(settle?.title).toMatch(/^Morning, Mon 19 Apr: /);
    expect(settle?.why?.some((line) => /^Done by wren: water change A1, A2 and A3/.test(line))).toBe(true);
    expect(isPrivate).toBe(true);
    expect(card?.title).toMatch(/^\d+ entries logged$/);
    expect(test.desk.store.water.changes(1, '' as never)).toHaveLength(1);
  });

  it('undoes all of a press on the wrong rack, and nothing that somebody else logged', async () => {
    const test = weekOld();
    taken(logChange(test.desk, test.by('alder'), { tub: 'A3' }));
    const [control] = (await pressRack(test, 'wren')).card?.controls?.[0] ?? [];
    if (control?.kind !== 'button' || control.press.act !== 'undo-together') throw new Error('no way back');
    taken(logChange(test.desk, test.by('alder'), { tub: 'A2', second: true }));
    const span = { from: 1, to: control.press.args.to + 1 };
    const others = undoActs['undo-together'](span, ctxOf(test, 'heron')).card;
    expect(others.title).toBe('Nothing left to undo there');
    const { card } = undoActs['undo-together'](control.press.args, ctxOf(test, 'wren'));
    expect(card.title).toMatch(/^\d+ entries undone$/);
    expectPhone(card);
    const changesOf = (tub: number) => test.desk.store.water.changes(tub, '' as never).map(({ by }) => by);
    expect([changesOf(1), changesOf(2), changesOf(3)]).toEqual([[], ['alder'], ['alder']]);
  });

  it('tells whoever comes second, privately, and logs nothing twice', async () => {
    const test = weekOld();
    const [first, second] = await Promise.all([pressRack(test, 'wren'), pressRack(test, 'alder')]);
    expect(first.card?.title).toMatch(/entries logged$/);
    expect(second).toMatchObject({ private: true, card: { title: 'That was already done' } });
    expect(second.settle).toEqual(first.settle);
    expect(test.desk.store.water.changes(1, '' as never)).toHaveLength(1);
  });

  it('of a single chore ticks that one', async () => {
    const test = weekOld();
    const values = [tickOf(test, 'water change', 'A2'), tickOf(test, 'look-round', null)];
    const { settle } = await rotaActs['rota-ticks'](post, ctxOf(test, 'alder'), { ...none, values });
    expect(settle?.why).toContain('Done by alder: water change A2 · look-round');
  });

  it('changes nothing where the tub was changed since, and is no longer due', async () => {
    const test = weekOld();
    const value = tickOf(test, 'water change', 'A2');
    test.advance({ days: -2 });
    taken(logChange(test.desk, test.by('wren'), { tub: 'A2' }));
    test.advance({ days: 2 });
    const pressed = await rotaActs['rota-ticks'](post, ctxOf(test, 'alder'), { ...none, values: [value] });
    expect(pressed).toMatchObject({ private: true, card: { title: 'That was already done' } });
    expect(test.desk.store.water.changes(2, '' as never)).toHaveLength(1);
  });

  it('closes a post of an earlier day, and does what was left of it', async () => {
    const test = weekOld();
    test.advance({ days: 1 });
    const { settle } = await pressRack(test, 'wren');
    expect(settle?.title).toBe('Morning, Mon 19 Apr: that day is over');
    expect(settle?.controls?.flat()).toHaveLength(1);
    expect(test.desk.store.water.changes(1, '' as never)).toHaveLength(1);
  });

  it('of a message that no version wrote does nothing', async () => {
    const test = weekOld();
    const answer = await pressRack(test, 'wren', { place: 'noon', day: '2027-04-19' });
    expect(answer.private).toBe(true);
    expect(test.desk.store.water.changes(1, '' as never)).toEqual([]);
  });
});
