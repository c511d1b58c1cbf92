import { afterEach, describe, expect, it } from 'vitest';
import {
  addTubs,
  businessOf,
  doneChore,
  handOverChore,
  logChange,
  logReading,
  logTopUp,
  putOffChore,
  type RotaItem,
  rota,
  rotaToday,
  setBusiness,
  setLine,
  setPartner,
  tickChosen,
  tickRack,
  todayOf,
  undo,
} from '../../../src/desk/index.ts';
import { type LocalDay, timeOf } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { faultOf, taken } from '../../support/sellingDesk.ts';

const opened: TestDesk[] = [];
afterEach(() => {
  for (const test of opened.splice(0)) test.close();
});

/** Two racks of three tubs, set up on a Monday evening; it is Monday a week later, 8:00 in Amsterdam, and nothing was done. */
function weekOld(): TestDesk {
  const test = deskAt('2027-04-12T18:00:00Z');
  opened.push(test);
  const { desk, by } = test;
  for (const name of ['wren', 'alder']) {
    taken(setPartner(desk, by('wren'), { partner: { userId: `user-${name}`, name, bot: false } }));
  }
  taken(setLine(desk, by('wren'), { line: 'jade' }));
  taken(addTubs(desk, by('wren'), { names: ['A1', 'A2', 'A3'], line: 'jade', litres: 30 }));
  taken(addTubs(desk, by('wren'), { names: ['B1', 'B2', 'B3'], line: 'jade', litres: 30 }));
  test.advance({ days: 6, hours: 12 });
  return test;
}

const what = ({ due: { chore, target } }: RotaItem): string =>
  `${chore.name} ${target.of === 'tub' ? target.name : target.of === 'rack' ? target.rack : ''}`.trim();
const open = (test: TestDesk): string[] =>
  rotaToday(test.desk)
    .filter(({ done }) => done === null)
    .map(what)
    .sort();
const done = (test: TestDesk): string[] =>
  rotaToday(test.desk)
    .filter((item) => item.done !== null)
    .map(what)
    .sort();
const alder = { userId: 'user-alder', name: 'alder' };

describe('the rota of a day', () => {
  it('calls nothing late on the first evening', () => {
    const test = weekOld();
    const fresh = deskAt('2027-04-12T18:00:00Z');
    opened.push(fresh);
    taken(setLine(fresh.desk, fresh.by('wren'), { line: 'jade' }));
    taken(addTubs(fresh.desk, fresh.by('wren'), { names: ['A1', 'A2'], line: 'jade', litres: 30 }));
    expect(open(fresh)).toEqual(['look-round', 'water change A1']);
    expect(rota(fresh.desk).every(({ lateDays }) => lateDays === 0)).toBe(true);
    expect(open(test).length).toBeGreaterThan(5);
  });

  it('stays as planned in the morning while it is worked through, and names who did what', () => {
    const test = weekOld();
    const morning = new Map(rotaToday(test.desk).map((item) => [what(item), item.partner]));
    taken(doneChore(test.desk, test.by('alder'), { chore: 'feed' }));
    taken(logChange(test.desk, test.by('wren'), { tub: 'A2' }));
    const later = rotaToday(test.desk);
    expect(new Map(later.map((item) => [what(item), item.partner]))).toEqual(morning);
    const change = later.find((item) => what(item) === 'water change A2');
    expect(change?.done?.by).toBe('wren');
    expect(done(test)).toEqual(['feed A', 'feed B', 'water change A2']);
  });

  it('does not bring back within the week what was done before its time', () => {
    const test = weekOld();
    const planned = rota(test.desk).filter((item) => what(item) === 'water change A1');
    expect(planned.length).toBeGreaterThan(0);
    test.advance({ days: 7 });
    for (const tub of ['A1', 'A2', 'A3', 'B1', 'B2', 'B3']) taken(logChange(test.desk, test.by('wren'), { tub }));
    expect(rota(test.desk).filter(({ due, done: isDone }) => due.chore.act === 'change' && isDone === null)).toEqual(
      [],
    );
  });
});

describe('the rota of a week', () => {
  it('repeats the water change by the interval of the policy as it is now', () => {
    const test = weekOld();
    const { desk, by } = test;
    taken(setBusiness(desk, by('wren'), { changeIntervalDays: 3 }));
    taken(logChange(desk, by('wren'), { tub: 'A1' }));
    test.advance({ days: 1 });
    const days = rota(desk)
      .filter((item) => what(item) === 'water change A1')
      .map(({ on }) => on);
    expect(days).toEqual(['2027-04-22', '2027-04-25']);
  });
});

describe('what is logged ticks the chore', () => {
  it('a change, a nitrate reading, a top-up anywhere in the rack; not a reading without nitrate', () => {
    const test = weekOld();
    const { desk, by } = test;
    taken(logChange(desk, by('wren'), { tub: 'B2' }));
    taken(logTopUp(desk, by('wren'), { tub: 'B3', litres: 1 }));
    taken(logReading(desk, by('alder'), { tub: 'B1', values: { tempC: 21 } }));
    taken(logReading(desk, by('alder'), { tub: 'B2', values: { nitrateMgL: 20 } }));
    expect(done(test)).toEqual(['test nitrate B2', 'top-up B', 'water change B2']);
  });

  it('no longer once it is undone', () => {
    const test = weekOld();
    const logged = taken(logChange(test.desk, test.by('wren'), { tub: 'B2' }));
    taken(undo(test.desk, test.by('wren'), false, logged.entryId));
    expect(done(test)).toEqual([]);
  });
});

describe('ticking', () => {
  it('logs the change itself with its planned litres, and asks about a second one', () => {
    const test = weekOld();
    const { desk, by } = test;
    const ticked = taken(doneChore(desk, by('wren'), { chore: 'water change', tub: 'a2' }));
    expect(ticked.of === 'change' && ticked.logged.litres).toBe(2.5);
    expect(faultOf(doneChore(desk, by('alder'), { chore: 'water change', tub: 'A2' }))).toMatchObject({
      kind: 'ask-changed-already',
      previous: { by: 'wren' },
    });
    taken(doneChore(desk, by('alder'), { chore: 'water change', tub: 'A2', second: true }));
    expect(desk.store.water.changes(2, '' as never)).toHaveLength(2);
  });

  it('takes every rack that is due, and one rack by its name or by a tub in it', () => {
    const test = weekOld();
    const { desk, by } = test;
    const one = taken(doneChore(desk, by('wren'), { chore: 'feed', tub: 'rack b' }));
    expect(one.of === 'tick' && one.targets).toEqual([{ of: 'rack', rack: 'B' }]);
    const rest = taken(doneChore(desk, by('wren'), { chore: 'feed' }));
    expect(rest.of === 'tick' && rest.targets).toEqual([{ of: 'rack', rack: 'A' }]);
    const other = taken(doneChore(desk, by('wren'), { chore: 'top-up', tub: 'A3' }));
    expect(other.of === 'tick' && other.targets).toEqual([{ of: 'rack', rack: 'A' }]);
  });

  it('says already when it was done today, with who and when', () => {
    const test = weekOld();
    const { desk, by } = test;
    taken(doneChore(desk, by('wren'), { chore: 'look-round' }));
    test.advance({ hours: 1 });
    const fault = faultOf(doneChore(desk, by('alder'), { chore: 'look-round' }));
    expect(fault).toMatchObject({ kind: 'done-already', what: 'look-round', by: 'wren' });
    expect(fault.kind === 'done-already' && timeOf(fault.at, businessOf(desk).zone)).toBe('08:00');
    taken(doneChore(desk, by('wren'), { chore: 'feed' }));
    expect(faultOf(doneChore(desk, by('alder'), { chore: 'feed' })).kind).toBe('done-already');
  });

  it('asks which tub where several are due, and logs what was not due as early', () => {
    const test = weekOld();
    const { desk, by } = test;
    expect(faultOf(doneChore(desk, by('wren'), { chore: 'water change' }))).toMatchObject({
      kind: 'which-target',
      targets: expect.arrayContaining(['A1', 'B3']),
    });
    taken(doneChore(desk, by('wren'), { chore: 'water change', tub: 'A1' }));
    for (const tub of ['A2', 'A3', 'B1', 'B2', 'B3']) taken(logChange(desk, by('wren'), { tub }));
    expect(faultOf(doneChore(desk, by('alder'), { chore: 'water change' }))).toMatchObject({
      kind: 'done-already',
      by: 'wren',
    });
    test.advance({ days: 1 });
    expect(faultOf(doneChore(desk, by('alder'), { chore: 'water change' })).kind).toBe('nothing-due');
    test.advance({ days: -1 });
    const early = taken(doneChore(desk, by('wren'), { chore: 'spare diaphragm at hand' }));
    expect(early.of === 'tick' && early.earlierThan).not.toBeNull();
    expect(early.of === 'tick' && early.nextOn).toBe('2028-04-18');
    expect(faultOf(doneChore(desk, by('wren'), { chore: 'sparediaphragm at hand' })).kind).toBe('done-already');
    expect(faultOf(doneChore(desk, by('wren'), { chore: 'feed', tub: 'Z9' }))).toMatchObject({
      kind: 'unknown',
      noun: 'tub',
    });
    expect(faultOf(doneChore(desk, by('wren'), { chore: 'fed' }))).toMatchObject({ kind: 'unknown', near: ['feed'] });
  });
});

describe('putting off and handing over', () => {
  it('takes it off today, and says why', () => {
    const test = weekOld();
    const { desk, by } = test;
    const put = taken(putOffChore(desk, by('wren'), { chore: 'feed', tub: 'A1', reason: 'no feed left' }));
    expect(put.until).toBe('2027-04-20');
    expect(open(test)).not.toContain('feed A');
    expect(open(test)).toContain('feed B');
    expect(rota(desk).find((item) => what(item) === 'feed A')).toMatchObject({
      on: '2027-04-20',
      due: { later: 'no feed left' },
    });
    expect(faultOf(putOffChore(desk, by('wren'), { chore: 'feed', reason: ' ' })).kind).toBe('nothing-given');
  });

  it('counts from the due day where that is still to come', () => {
    const test = weekOld();
    const { desk, by } = test;
    expect(rota(desk).find((item) => what(item) === 'test nitrate B1')?.due.dueOn).toBe('2027-04-24');
    const put = taken(putOffChore(desk, by('wren'), { chore: 'test nitrate', tub: 'B1', reason: 'no drops left' }));
    expect(put.until).toBe('2027-04-28');
  });

  it('hands to a partner until it is done, and to nobody else', () => {
    const test = weekOld();
    const { desk, by } = test;
    taken(handOverChore(desk, by('wren'), { chore: 'look-round', partner: alder }));
    const [first, ...more] = rota(desk).filter((item) => what(item) === 'look-round');
    expect(first?.partner).toBe('alder');
    expect(more.length).toBe(6);
    const stranger = { userId: 'user-kestrel', name: 'kestrel' };
    expect(faultOf(handOverChore(desk, by('wren'), { chore: 'look-round', partner: stranger })).kind).toBe('unknown');
  });
});

describe('ticks under a post', () => {
  const today = '2027-04-19' as LocalDay;

  it('are all logged or none', () => {
    const test = weekOld();
    const by = test.by('alder');
    taken(logReading(test.desk, { ...by, key: `${by.key}#3` }, { tub: 'B1', values: { ph: 7 } }));
    const before = open(test);
    expect(() => tickRack(test.desk, by, today, 1)).toThrow('UNIQUE');
    expect(open(test)).toEqual(before);
  });

  it('do all of a rack but the readings', () => {
    const test = weekOld();
    const before = open(test);
    const { ticked, refused } = tickRack(test.desk, test.by('alder'), today, 1);
    expect(refused).toEqual([]);
    expect(ticked.filter(({ of }) => of === 'change')).toHaveLength(3);
    const ofRackA = before.filter((name) => / A\d?$/.test(name));
    expect(open(test)).toEqual(before.filter((name) => !ofRackA.includes(name) || name.startsWith('test nitrate')));
  });

  it('do the chosen ones, whoever comes second changes nothing', () => {
    const test = weekOld();
    const items = rotaToday(test.desk).filter((item) =>
      ['feed B', 'look-round', 'water change B1'].includes(what(item)),
    );
    const values = items.map(({ due, tubId }) => `${due.chore.id}.${tubId ?? ''}`);
    const first = tickChosen(test.desk, test.by('wren'), today, values);
    const second = tickChosen(test.desk, test.by('alder'), today, values);
    expect(done(test)).toEqual(['feed B', 'look-round', 'water change B1']);
    expect(first.ticked).toHaveLength(3);
    expect(second).toEqual({ ticked: [], refused: [] });
    expect(
      rotaToday(test.desk)
        .filter((item) => item.done !== null)
        .every((item) => item.done?.by === 'wren'),
    ).toBe(true);
  });

  it('of an old post do only what it spoke of', () => {
    const test = weekOld();
    test.advance({ days: 3 });
    const todays = rotaToday(test.desk).filter(({ due }) => due.dueOn === todayOf(test.desk));
    const values = todays.map(({ due, tubId }) => `${due.chore.id}.${tubId ?? ''}`);
    expect(values.length).toBeGreaterThan(0);
    expect(tickChosen(test.desk, test.by('wren'), today, values).ticked).toEqual([]);
  });
});
