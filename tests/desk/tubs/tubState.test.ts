import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addTubs,
  listTubs,
  logChange,
  logCount,
  logReading,
  setLine,
  showTub,
  tubsToWatch,
} from '../../../src/desk/index.ts';
import type { Instant } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
  setLine(bench.desk, bench.by('wren'), { line: 'orange' });
  setLine(bench.desk, bench.by('wren'), { line: 'green' });
  addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2', 'A3'], line: 'orange', litres: 25 });
  addTubs(bench.desk, bench.by('wren'), { names: ['B1'], line: 'green', litres: 25 });
});
afterEach(() => bench.close());

const names = (filter: Parameters<typeof listTubs>[1] = {}) => {
  const found = listTubs(bench.desk, filter);
  return found.ok ? found.value.map(({ tub }) => tub.name) : found.fault.kind;
};
const lateOf = (tub: string) => {
  const found = showTub(bench.desk, tub);
  return found.ok ? found.value.lateDays : undefined;
};

describe('how a tub stands', () => {
  it('is told of one that nothing was logged of', () => {
    expect(showTub(bench.desk, 'A2')).toMatchObject({
      value: { last: null, lastChangedAt: null, lateDays: 0, stock: { saleable: null, counted: null } },
    });
  });

  it('is judged by its last reading, with its age in local days', () => {
    logReading(bench.desk, bench.by('wren'), {
      tub: 'A1',
      values: { nitriteMgL: 1 },
      at: '2027-04-11T22:30:00.000Z' as Instant,
    });
    expect(showTub(bench.desk, 'A1')).toMatchObject({ value: { last: { daysOld: 1, verdict: { state: 'act' } } } });
  });

  it('is watched for nitrate that a later reading left out, until a change has put it right', () => {
    logReading(bench.desk, bench.by('wren'), { tub: 'A1', values: { nitrateMgL: 24 } });
    bench.advance({ minutes: 1 });
    logReading(bench.desk, bench.by('wren'), { tub: 'A1', values: { tempC: 20 } });
    expect(showTub(bench.desk, 'A1')).toMatchObject({
      value: { last: { verdict: { state: 'fine' } }, waterState: 'watch' },
    });
    expect(tubsToWatch(bench.desk).map(({ tub }) => tub.name)).toEqual(['A1']);
    bench.advance({ minutes: 1 });
    logChange(bench.desk, bench.by('wren'), { tub: 'A1', percent: 50 });
    expect(showTub(bench.desk, 'A1')).toMatchObject({ value: { waterState: 'fine' } });
    expect(tubsToWatch(bench.desk)).toEqual([]);
  });

  it('calls no change late before the first interval is over, and then counts from its end', () => {
    bench.advance({ days: 6 });
    expect(lateOf('A1')).toBe(0);
    bench.advance({ days: 3 });
    expect(lateOf('A1')).toBe(2);
  });

  it('calls a change late from the day after it was due', () => {
    logChange(bench.desk, bench.by('wren'), { tub: 'A1' });
    bench.advance({ days: 7 });
    expect(lateOf('A1')).toBe(0);
    bench.advance({ days: 1 });
    expect(lateOf('A1')).toBe(1);
  });
});

describe('the list of tubs', () => {
  it('has the worst first: water, then late changes, then rack order', () => {
    logReading(bench.desk, bench.by('wren'), { tub: 'A3', values: { nitriteMgL: 1 } });
    logReading(bench.desk, bench.by('wren'), { tub: 'B1', values: { nitrateMgL: 40 } });
    logChange(bench.desk, bench.by('wren'), { tub: 'A2', at: '2027-04-01T10:00:00.000Z' as Instant });
    logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: 4 });
    expect(names()).toEqual(['A3', 'B1', 'A2', 'A1']);
  });

  it('is of one rack or one line, however it is typed', () => {
    expect(names({ rack: ' b ' })).toEqual(['B1']);
    expect(names({ line: 'Green' })).toEqual(['B1']);
    expect(names({ rack: 'X' })).toBe('unknown');
    expect(names({ line: 'gren' })).toBe('unknown');
  });
});
