import { afterEach, describe, expect, it } from 'vitest';
import {
  addChore,
  addTubs,
  allChores,
  businessOf,
  chores,
  editChore,
  setLine,
  setPartner,
  toUndo,
  undo,
} from '../../../src/desk/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { faultOf, taken } from '../../support/sellingDesk.ts';

const opened: TestDesk[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

function racks(): TestDesk {
  const test = deskAt('2027-04-12T18:00:00Z');
  opened.push(test);
  const { desk, by } = test;
  taken(setPartner(desk, by('wren'), { partner: { userId: 'user-wren', name: 'wren', bot: false } }));
  taken(setPartner(desk, by('wren'), { partner: { userId: 'user-alder', name: 'alder', bot: false } }));
  taken(setLine(desk, by('wren'), { line: 'jade' }));
  return test;
}

const wren = { userId: 'user-wren', name: 'wren' };
const named = (test: TestDesk, name: string) => allChores(test.desk).find((chore) => chore.name === name);

describe('the starting set', () => {
  it('comes with the first tub, once, and is not the asker’s own last entry', () => {
    const test = racks();
    expect(chores(test.desk)).toEqual([]);
    taken(addTubs(test.desk, test.by('wren'), { names: ['A1'], line: 'jade', litres: 30 }));
    taken(addTubs(test.desk, test.by('wren'), { names: ['A2'], line: 'jade', litres: 30 }));
    const names = chores(test.desk).map(({ name }) => name);
    expect(names).toHaveLength(20);
    expect(new Set(names).size).toBe(20);
    expect(taken(toUndo(test.desk, test.by('wren'), false, undefined)).summary).toContain('A2');
  });

  it('does not come back once it was undone', () => {
    const test = racks();
    taken(addTubs(test.desk, test.by('wren'), { names: ['A1'], line: 'jade', litres: 30 }));
    const planted = test.desk.store.entries.latest(5).find(({ kind }) => kind === 'chore');
    taken(undo(test.desk, test.by('wren'), true, planted?.id ?? 0));
    taken(addTubs(test.desk, test.by('wren'), { names: ['A2'], line: 'jade', litres: 30 }));
    expect(chores(test.desk)).toEqual([]);
  });
});

describe('adding and changing a chore', () => {
  it('keeps it with its terms, and refuses what cannot be', () => {
    const test = racks();
    const { desk, by } = test;
    const added = taken(
      addChore(desk, by('wren'), { name: 'moss trim', everyDays: 30, minutes: 10, scope: 'tub', partner: wren }),
    );
    expect(added).toMatchObject({ owner: 'wren', chore: { scope: 'tub', userId: 'user-wren' } });
    expect(faultOf(addChore(desk, by('wren'), { name: 'Moss Trim', everyDays: 3, minutes: 1 })).kind).toBe(
      'name-taken',
    );
    expect(faultOf(addChore(desk, by('wren'), { name: '', everyDays: 3, minutes: 1 })).kind).toBe('bad-name');
    expect(faultOf(addChore(desk, by('wren'), { name: 'x1', everyDays: 0, minutes: 1 })).kind).toBe(
      'impossible-amount',
    );
    expect(faultOf(addChore(desk, by('wren'), { name: 'x1', everyDays: 1.5, minutes: 1 })).kind).toBe(
      'impossible-amount',
    );
    const stranger = { userId: 'user-kestrel', name: 'kestrel' };
    expect(
      faultOf(addChore(desk, by('wren'), { name: 'x1', everyDays: 1, minutes: 1, partner: stranger })),
    ).toMatchObject({
      kind: 'unknown',
      noun: 'partner',
    });
    expect(chores(desk)).toHaveLength(1);
  });

  it('gives it to a partner, and shares it again when the same is named once more', () => {
    const test = racks();
    const { desk, by } = test;
    taken(addChore(desk, by('wren'), { name: 'moss trim', everyDays: 30, minutes: 10 }));
    expect(taken(editChore(desk, by('wren'), true, { chore: 'moss trim', partner: wren })).owner).toBe('wren');
    const alder = { userId: 'user-alder', name: 'alder' };
    expect(taken(editChore(desk, by('wren'), true, { chore: 'moss trim', partner: alder })).owner).toBe('alder');
    expect(taken(editChore(desk, by('wren'), true, { chore: 'moss trim', partner: alder })).owner).toBeNull();
  });

  it('takes it off the rota and puts it back', () => {
    const test = racks();
    const { desk, by } = test;
    taken(addChore(desk, by('wren'), { name: 'moss trim', everyDays: 30, minutes: 10 }));
    taken(editChore(desk, by('wren'), true, { chore: 'moss trim', off: true }));
    expect(chores(desk)).toEqual([]);
    taken(editChore(desk, by('wren'), true, { chore: 'moss trim', off: false }));
    expect(chores(desk).map(({ name }) => name)).toEqual(['moss trim']);
    expect(faultOf(editChore(desk, by('wren'), true, { chore: 'moss trim' })).kind).toBe('nothing-given');
    expect(faultOf(editChore(desk, by('wren'), true, { chore: 'mos trim', minutes: 2 }))).toMatchObject({
      near: ['moss trim'],
    });
  });

  it('sets the change policy with the interval of the water change, for an owner', () => {
    const test = racks();
    const { desk, by } = test;
    taken(addTubs(desk, by('wren'), { names: ['A1'], line: 'jade', litres: 30 }));
    const edit = { chore: 'water change', everyDays: 10 };
    expect(faultOf(editChore(desk, by('alder'), false, edit)).kind).toBe('owner-only');
    expect(faultOf(editChore(desk, by('wren'), true, { ...edit, everyDays: 61 })).kind).toBe('impossible-amount');
    const { entryId } = taken(editChore(desk, by('wren'), true, edit));
    expect(businessOf(desk).changeIntervalDays).toBe(10);
    expect(named(test, 'water change')?.everyDays).toBe(10);
    taken(undo(desk, by('wren'), true, entryId));
    expect(businessOf(desk).changeIntervalDays).toBe(7);
  });
});
