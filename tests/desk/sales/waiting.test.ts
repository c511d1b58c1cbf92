import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addWaiting,
  exportTables,
  forgetBuyer,
  freeOf,
  setLine,
  setSeason,
  takeOffWaiting,
  toForget,
  undo,
  type WaitingInput,
  type WaitingList,
  waitingById,
  waitingLists,
} from '../../../src/desk/index.ts';
import { day, type MonthDay } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  // 50 + 30 jade over the breeders, of which the model lets some be promised.
  test = sellingDeskAt('2027-03-08T09:00:00Z');
});
afterEach(() => test.close());

const wait = (buyer: string, number: number, more: Partial<WaitingInput> = {}) => {
  test.advance({ minutes: 1 });
  return addWaiting(test.desk, test.by('wren'), { line: 'Jade', number, buyer, ...more });
};
const freeJade = (): number => freeOf(test.desk, test.desk.store.tubs.lines()[0]?.id ?? 0);
const lists = (asked: Parameters<typeof waitingLists>[1] = {}): WaitingList[] => taken(waitingLists(test.desk, asked));
const queue = (): [string, number, number][] =>
  lists({ line: 'jade' }).flatMap(({ offers }) =>
    offers.map(({ waiting, offer }): [string, number, number] => [waiting.buyer, waiting.number, offer]),
  );
const lastEntry = (): number => test.desk.store.entries.latest(1)[0]?.id ?? 0;
const undoLast = () => undo(test.desk, test.by('wren'), true, lastEntry());

describe('the waiting list', () => {
  it('keeps the order of entry and offers what is free along it', () => {
    expect(taken(wait('kestrel', 60))).toMatchObject({ buyer: 'kestrel', before: 0, list: { free: freeJade() } });
    expect(taken(wait('heron', 20)).before).toBe(1);
    const offers = queue();
    expect(offers.map(([buyer, number]) => [buyer, number])).toEqual([
      ['kestrel', 60],
      ['heron', 20],
    ]);
    expect(offers[0]?.[2]).toBe(60);
    expect(offers[1]?.[2]).toBeLessThan(20);
  });

  it('asks about a buyer who is on it, and keeps the place with another number', () => {
    taken(wait('kestrel', 20));
    taken(wait('heron', 5));
    expect(faultOf(wait(' KESTREL ', 30))).toMatchObject({ kind: 'ask-waiting-already', number: 20, typed: 30 });
    expect(taken(wait('kestrel', 30, { change: true }))).toMatchObject({ before: 0, number: 30 });
    expect(queue().map(([, number]) => number)).toEqual([30, 5]);
    taken(undoLast());
    expect(queue().map(([, number]) => number)).toEqual([20, 5]);
  });

  it('lets somebody off, once, and back with undo', () => {
    const { entryId } = taken(wait('kestrel', 20));
    const id = lists()[0]?.offers[0]?.waiting.id ?? 0;
    expect(takeOffWaiting(test.desk, test.by('alder'), id)).toMatchObject({ waiting: { buyer: 'kestrel' } });
    expect(takeOffWaiting(test.desk, test.by('wren'), id)).toBeUndefined();
    expect([lists(), waitingById(test.desk, id)]).toEqual([[], undefined]);
    expect(faultOf(undo(test.desk, test.by('wren'), true, entryId))).toMatchObject({ kind: 'others-rest-on-it' });
    taken(undoLast());
    expect(queue()).toHaveLength(1);
  });

  it('gives way to a sale to the buyer, whole or in part, in the same entry', () => {
    taken(wait('kestrel', 20));
    test.sell(12, { buyer: 'Kestrel' });
    expect(queue().map(([, number]) => number)).toEqual([8]);
    test.sell(10, { buyer: 'kestrel' });
    expect(queue()).toEqual([]);
    taken(undoLast());
    expect(queue().map(([, number]) => number)).toEqual([8]);
    test.sell(8, { buyer: 'heron' });
    test.sell(8);
    expect(queue().map(([, number]) => number)).toEqual([8]);
  });

  it('is asked for by line and by buyer', () => {
    taken(setLine(test.desk, test.by('wren'), { line: 'amber' }));
    taken(wait('kestrel', 20));
    taken(wait('kestrel', 4, { line: 'amber' }));
    expect(lists().map(({ line, free }) => [line.name, free])).toEqual([
      ['jade', freeJade()],
      ['amber', null],
    ]);
    expect(lists({ line: 'snow' })).toMatchObject([{ offers: [] }]);
    expect(lists({ buyer: 'KESTREL' })).toHaveLength(2);
    expect(lists({ buyer: 'kestrel', line: 'jade' })).toHaveLength(1);
    expect(faultOf(waitingLists(test.desk, { buyer: 'kestrl' }))).toMatchObject({ noun: 'buyer', near: ['kestrel'] });
    expect(faultOf(waitingLists(test.desk, { line: 'jaed' }))).toMatchObject({ noun: 'line', near: ['jade'] });
    expect(lists({ line: 'amber' })[0]?.offers[0]?.offer).toBe(0);
  });

  it('says when a parcel could leave while a window is closed', () => {
    taken(wait('kestrel', 20));
    expect(lists()[0]?.opensFor).toBeNull();
    const [from, to] = ['03-01', '03-20'] as MonthDay[];
    taken(setSeason(test.desk, test.by('wren'), { from, to, name: 'frost' }));
    expect(lists()[0]?.opensFor).toBe('2027-03-22');
  });

  it.each([
    [{ number: 0 }, { kind: 'impossible-amount' }],
    [{ number: 2.5 }, { kind: 'impossible-amount' }],
    [{ buyer: ' ' }, { kind: 'bad-name', noun: 'buyer' }],
    [{ line: 'whale' }, { kind: 'unknown', noun: 'line' }],
  ])('refuses %j and writes nothing', (more, fault) => {
    const before = lastEntry();
    const { number = 5, buyer = 'kestrel' } = more as { number?: number; buyer?: string };
    expect(faultOf(wait(buyer, number, more))).toMatchObject(fault);
    expect(lastEntry()).toBe(before);
  });

  it('holds the line and the wish of those who wait on it against undo', () => {
    taken(setLine(test.desk, test.by('wren'), { line: 'amber' }));
    const entryId = lastEntry();
    taken(wait('kestrel', 4, { line: 'amber' }));
    expect(faultOf(undo(test.desk, test.by('wren'), true, entryId))).toMatchObject({ kind: 'others-rest-on-it' });
  });

  it('forgets a buyer who is forgotten, and the sales keep their entries', () => {
    taken(wait('kestrel', 20));
    taken(wait('heron', 5));
    test.sell(12, { buyer: 'heron' });
    const { buyerId } = taken(toForget(test.desk, 'kestrel'));
    expect(forgetBuyer(test.desk, test.by('wren'), buyerId)).toMatchObject({ ok: true, value: { waiting: 1 } });
    expect([queue(), test.desk.store.sales.all().length]).toEqual([[], 1]);
  });

  it('is exported with what is still wanted', () => {
    taken(wait('kestrel', 20));
    test.sell(12, { buyer: 'kestrel' });
    const [table] = taken(exportTables(test.desk, { what: 'waiting' })).map((read) => read());
    expect(table?.columns.map(({ name }) => name)).toEqual([
      ...['buyer', 'line', 'number', 'still_wanted', 'at', 'logged_by'],
    ]);
    expect(table?.rows[0]?.slice(0, 4)).toEqual(['kestrel', 'jade', 20, 8]);
  });
});

it('is judged for the day on which the sale would leave', () => {
  expect(test.sell(5, { buyer: 'kestrel' }).dispatchOn).toBe(day('2027-03-09'));
});
