import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addTubs, logChange, logReading, logTopUp, setBusiness, setLine, undo } from '../../../src/desk/index.ts';
import type { Instant } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { rowCounts } from '../../support/rowCounts.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
  setLine(bench.desk, bench.by('wren'), { line: 'orange' });
  addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2'], line: 'orange', litres: 25 });
});
afterEach(() => bench.close());

const change = (input: Partial<Parameters<typeof logChange>[2]>, name = 'wren') =>
  logChange(bench.desk, bench.by(name), { tub: 'A1', ...input });

describe('a water change', () => {
  it('is the planned one without litres, and litres that are the per cent', () => {
    expect(change({})).toMatchObject({ value: { litres: 2, percent: 10, next: { dueOn: '2027-04-20' } } });
    expect(change({ tub: 'A2', litres: 4, percent: 20 })).toMatchObject({ value: { litres: 4, percent: 20 } });
  });

  it('is asked about where litres and per cent disagree, and where it is most of the tub', () => {
    expect(change({ litres: 4, percent: 50 })).toMatchObject({ fault: { kind: 'ask-which-amount' } });
    expect(change({ litres: 11 })).toMatchObject({ fault: { kind: 'ask-much-changed', percent: 55 } });
    setBusiness(bench.desk, bench.by('wren'), { changeMaxPercent: 60 });
    expect(change({ litres: 11 }).ok).toBe(true);
    expect(change({ litres: 20, second: true, sure: true })).toMatchObject({ value: { percent: 100 } });
  });

  it('says what it does to nitrate', () => {
    logReading(bench.desk, bench.by('wren'), { tub: 'A1', values: { nitrateMgL: 40 } });
    bench.advance({ minutes: 10 });
    const changed = change({ percent: 25 });
    if (!changed.ok || changed.value.nitrateMgL === null) throw new Error('nothing said of nitrate');
    const { before, after } = changed.value.nitrateMgL;
    expect(after).toBeCloseTo(0.75 * before + 0.25 * 5, 9);
    expect(before).toBeGreaterThan(30);
    expect(before).toBeLessThan(60);
  });

  it.each([
    [{ litres: 0 }, 'impossible-amount'],
    [{ litres: -2 }, 'impossible-amount'],
    [{ percent: 101 }, 'impossible-amount'],
    [{ litres: 20.1 }, 'more-than-the-tub'],
    [{ tub: 'A9' }, 'unknown'],
    [{ at: '2027-04-14T08:00:00.000Z' as Instant }, 'in-the-future'],
  ])('of %o is refused and leaves nothing behind', (input, kind) => {
    const before = rowCounts(bench.folder);
    expect(change(input)).toMatchObject({ ok: false, fault: { kind } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('is asked about within the interval, with what two of them mean', () => {
    change({ percent: 25 }, 'alder');
    bench.advance({ days: 6 });
    const before = rowCounts(bench.folder);
    expect(change({ percent: 25 })).toMatchObject({
      fault: {
        kind: 'ask-changed-already',
        togetherPercent: 44,
        litres: 5,
        previous: { by: 'alder', percent: 25, at: '2027-04-13T16:00:00.000Z' },
      },
    });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('is not asked about once the interval is over, for another tub, when it really was a second, or when the first is undone', () => {
    const first = change({});
    expect(change({ tub: 'A2' }).ok).toBe(true);
    expect(change({ second: true }).ok).toBe(true);
    bench.advance({ days: 7 });
    expect(change({}).ok).toBe(true);
    expect(first.ok).toBe(true);
  });

  it('is not asked about after an undone one', () => {
    const first = change({});
    if (!first.ok) throw new Error('refused');
    undo(bench.desk, bench.by('wren'), false, first.value.entryId);
    expect(change({}).ok).toBe(true);
  });

  it('is asked about too when it is noted late and a newer one is there', () => {
    change({});
    expect(change({ at: '2027-04-10T08:00:00.000Z' as Instant })).toMatchObject({
      fault: { kind: 'ask-changed-already' },
    });
    expect(change({ at: '2027-04-06T08:00:00.000Z' as Instant }).ok).toBe(true);
  });

  it('counts the interval in local days: Monday 23:30 to the Monday after 00:30 are seven', () => {
    change({ at: '2027-04-05T21:30:00.000Z' as Instant });
    expect(change({ at: '2027-04-11T22:30:00.000Z' as Instant }).ok).toBe(true);
  });
});

describe('a top-up', () => {
  const topUp = (water?: 'tap' | 'soft') => logTopUp(bench.desk, bench.by('wren'), { tub: 'A1', litres: 2, water });

  it('is no change: the next change stays where it was', () => {
    topUp();
    expect(change({}).ok).toBe(true);
  });

  it('adds the minerals of tap water to the TDS last read, and none of soft water', () => {
    logReading(bench.desk, bench.by('wren'), { tub: 'A1', values: { tdsMgL: 240 } });
    logReading(bench.desk, bench.by('wren'), { tub: 'A1', values: { ph: 7 } });
    expect(topUp()).toMatchObject({ value: { water: 'tap', tdsMgL: { last: 240, adds: null } } });
    setBusiness(bench.desk, bench.by('wren'), { sourceTdsMgL: 180 });
    expect(topUp()).toMatchObject({ value: { tdsMgL: { last: 240, adds: 18 } } });
    expect(topUp('soft')).toMatchObject({ value: { water: 'soft', tdsMgL: { last: 240, adds: 0 } } });
  });

  it('cannot be more than the tub holds', () => {
    expect(logTopUp(bench.desk, bench.by('wren'), { tub: 'A1', litres: 21 })).toMatchObject({
      fault: { kind: 'more-than-the-tub', netLitres: 20 },
    });
  });
});
