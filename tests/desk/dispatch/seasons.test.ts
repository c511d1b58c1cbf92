import { afterEach, beforeEach, expect, it } from 'vitest';
import { judgeDay, setSeason, undo } from '../../../src/desk/index.ts';
import { day, type MonthDay } from '../../../src/domain/index.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

let test: ReturnType<typeof sellingDeskAt>;
beforeEach(() => {
  test = sellingDeskAt('2026-11-01T09:00:00Z');
});
afterEach(() => test.close());

const set = (from?: string, to?: string, more = {}) =>
  setSeason(test.desk, test.by('wren'), { from: from as MonthDay, to: to as MonthDay, ...more });

it('adds a window over the year’s end, changes it by its name, and removes it', () => {
  expect(taken(set()).windows).toEqual([]);
  const added = taken(set('11-15', '03-10', { name: 'Winter' }));
  expect(added).toMatchObject({
    done: 'added',
    windows: [{ closesOn: '2026-11-15', opensOn: '2027-03-11', isClosedNow: false }],
  });
  const changed = taken(set('11-01', undefined, { name: 'winter' }));
  expect(changed).toMatchObject({ done: 'changed', window: { from: '11-01', to: '03-10', name: 'Winter' } });
  expect(changed.windows[0]).toMatchObject({ isClosedNow: true, opensOn: '2027-03-11' });
  expect(taken(set(undefined, undefined, { remove: true }))).toMatchObject({ done: 'removed', windows: [] });
});

it('brings the former window back when a change is undone', () => {
  const added = taken(set('11-15', '03-10', { name: 'Winter' }));
  const changed = taken(set('12-01', '02-29', { name: 'Winter' }));
  expect(judgeDay(test.desk, day('2027-03-08'), { area: null, region: null }).verdict).toBe('may go');
  expect(faultOf(undo(test.desk, test.by('wren'), true, added.entryId ?? 0)).kind).toBe('others-rest-on-it');
  taken(undo(test.desk, test.by('wren'), true, changed.entryId ?? 0));
  expect(judgeDay(test.desk, day('2027-03-08'), { area: null, region: null }).verdict).toBe('no');
});

it('needs both ends for a new one, and a name that exists to remove', () => {
  expect(faultOf(set('11-15')).kind).toBe('nothing-given');
  expect(faultOf(set(undefined, undefined, { name: 'summer' })).kind).toBe('nothing-given');
  expect(faultOf(set(undefined, undefined, { name: 'summer', remove: true })).kind).toBe('unknown');
  expect(faultOf(set('11-15', '03-10', { name: 'x'.repeat(31) })).kind).toBe('bad-name');
});

it('tells of a window that leaves no day open, and then proposes none', () => {
  expect(taken(set('01-01', '12-31')).windows).toMatchObject([{ wholeYear: true, isClosedNow: true }]);
  expect(judgeDay(test.desk, day('2027-06-07'), { area: null, region: null })).toMatchObject({
    verdict: 'no',
    next: null,
  });
  expect(test.sell(5).dispatchOn).toBeNull();
});

it('names the open sales that a new window closes, with their next good day', () => {
  const sale = test.sell(5, { dispatchOn: day('2026-11-16') });
  const answer = taken(set('11-15', '03-10', { name: 'Winter' }));
  expect(answer.inTrouble).toMatchObject([
    { sale: { id: sale.id }, judged: { verdict: 'no', reasons: [{ kind: 'closed-window' }, {}], next: '2027-03-15' } },
  ]);
});
