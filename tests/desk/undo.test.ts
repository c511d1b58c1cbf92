import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addTubs,
  editTub,
  handOverChore,
  logCount,
  logLoss,
  putOffChore,
  setLine,
  setPartner,
  stock,
  toUndo,
  tubsInUse,
  undo,
  undoable,
} from '../../src/desk/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';
import { rowCounts } from '../support/rowCounts.ts';
import { taken } from '../support/sellingDesk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
  setLine(bench.desk, bench.by('wren'), { line: 'orange' });
  addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2'], line: 'orange', litres: 25 });
});
afterEach(() => bench.close());

/** The number of the last entry whose words begin so. */
const entryOf = (begins: string): number =>
  bench.desk.store.entries.latest(100).find(({ summary }) => summary.startsWith(begins))?.id ?? 0;
const ask = (name: string, entry?: number, owner = false) => toUndo(bench.desk, bench.by(name), owner, entry);
/** What is believed of the animals: the same only where the same facts hold. */
const believed = () => {
  const [line] = taken(stock(bench.desk, 'orange'));
  return { saleable: line?.saleable, members: line?.tubs.map(({ members }) => members) };
};
const count = (name: string) =>
  taken(logCount(bench.desk, bench.by(name), { tub: 'A1', saleable: 40, method: 'full' }));

describe('undo', () => {
  it("means the asker's own last entry, not the partner's and not the planted chores", () => {
    expect(ask('wren')).toMatchObject({ value: { summary: 'added tubs A1 to A2 (orange, 25 L)' } });
    count('wren');
    logLoss(bench.desk, bench.by('alder'), { tub: 'A1', number: 2 });
    expect(ask('wren')).toMatchObject({ value: { summary: 'A1 counted 40 saleable (full)' } });
    expect(ask('rowan')).toMatchObject({ fault: { kind: 'nothing-to-undo' } });
  });

  it('voids and deletes nothing: what was logged no longer counts, and its rows stay', () => {
    count('wren');
    const counted = believed();
    taken(logLoss(bench.desk, bench.by('wren'), { tub: 'A1', number: 2 }));
    expect(believed()).not.toEqual(counted);
    const before = rowCounts(bench.folder);
    expect(undo(bench.desk, bench.by('wren'), false, entryOf('A1 2 found dead')).ok).toBe(true);
    expect(believed()).toEqual(counted);
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('asks before: looking for what would be undone changes nothing', () => {
    count('wren');
    const counted = believed();
    expect(ask('wren').ok).toBe(true);
    expect(believed()).toEqual(counted);
  });

  it("takes another's entry only for an owner", () => {
    count('alder');
    const counted = believed();
    const id = entryOf('A1 counted');
    expect(ask('wren', id)).toMatchObject({ fault: { kind: 'not-yours', by: 'alder' } });
    expect(undo(bench.desk, bench.by('wren'), false, id).ok).toBe(false);
    expect(believed()).toEqual(counted);
    expect(undo(bench.desk, bench.by('wren'), true, id).ok).toBe(true);
    expect(believed().members).toEqual([null, null]);
  });

  it('happens once, and says who did it', () => {
    count('wren');
    const id = entryOf('A1 counted');
    undo(bench.desk, bench.by('wren'), false, id);
    expect(undo(bench.desk, bench.by('alder'), true, id)).toMatchObject({
      fault: { kind: 'voided-already', by: 'wren' },
    });
  });

  it('leaves alone what later entries rest on, and names them', () => {
    count('wren');
    const tubs = entryOf('added tubs');
    expect(ask('wren', tubs)).toMatchObject({
      fault: { kind: 'others-rest-on-it', later: ['A1 counted 40 saleable (full)'] },
    });
    expect(ask('wren', entryOf('added line'))).toMatchObject({ fault: { kind: 'others-rest-on-it' } });
    undo(bench.desk, bench.by('wren'), false, entryOf('A1 counted'));
    expect(undo(bench.desk, bench.by('wren'), false, tubs).ok).toBe(true);
    expect(tubsInUse(bench.desk)).toEqual([]);
  });

  it('leaves alone a tub whose chores were put off or handed over', () => {
    const wren = { userId: 'user-wren', name: 'wren' };
    setPartner(bench.desk, bench.by('wren'), { partner: { ...wren, bot: false } });
    const about = { chore: 'front glass', tub: 'A2' };
    putOffChore(bench.desk, bench.by('wren'), { ...about, reason: 'moulting' });
    handOverChore(bench.desk, bench.by('wren'), { ...about, partner: wren });
    expect(ask('wren', entryOf('added tubs'))).toMatchObject({
      fault: { later: ['front glass, A2: handed to wren', expect.stringMatching(/^front glass, A2: put off to /)] },
    });
  });

  it('leaves alone an edit that a later edit carries on', () => {
    editTub(bench.desk, bench.by('wren'), { tub: 'A1', name: 'A9' });
    editTub(bench.desk, bench.by('wren'), { tub: 'A9', litres: 30 });
    expect(ask('wren', entryOf('changed tub A1'))).toMatchObject({ fault: { later: ['changed tub A9'] } });
    undo(bench.desk, bench.by('wren'), false, entryOf('changed tub A9'));
    expect(undo(bench.desk, bench.by('wren'), false, entryOf('changed tub A1')).ok).toBe(true);
    expect(tubsInUse(bench.desk).map(({ name, litres }) => [name, litres])).toEqual([
      ['A1', 25],
      ['A2', 25],
    ]);
  });

  it('knows no entry that is not there, and offers the last twenty', () => {
    expect(ask('wren', 999)).toMatchObject({ fault: { kind: 'unknown', noun: 'entry' } });
    for (let n = 1; n <= 25; n++) logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: n });
    expect(undoable(bench.desk)).toHaveLength(20);
    expect(undoable(bench.desk)[0]?.summary).toBe('A1 counted 25 saleable (glance)');
  });
});
