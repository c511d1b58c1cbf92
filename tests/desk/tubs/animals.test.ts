import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addTubs, logCount, logLoss, logMove, setHold, setLine, stock } from '../../../src/desk/index.ts';
import { day, type Instant } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { rowCounts } from '../../support/rowCounts.ts';
import { taken } from '../../support/sellingDesk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
  setLine(bench.desk, bench.by('wren'), { line: 'orange' });
  setLine(bench.desk, bench.by('wren'), { line: 'green' });
  addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2'], line: 'orange', litres: 25 });
  addTubs(bench.desk, bench.by('wren'), { names: ['B1'], line: 'green', litres: 25 });
});
afterEach(() => bench.close());

const at = (text: string): Instant => text as Instant;
const count = (tub: string, saleable: number, more: Partial<Parameters<typeof logCount>[2]> = {}) =>
  logCount(bench.desk, bench.by('wren'), { tub, saleable, method: 'full', ...more });
/** A number of animals that is believed, within what a full count leaves open. */
const near = (number: number | null | undefined, wanted: number): void => {
  expect(Math.abs((number ?? Number.NaN) - wanted)).toBeLessThanOrEqual(Math.max(2, 0.1 * wanted));
};
const loss = (tub: string, number: number, when?: Instant) =>
  logLoss(bench.desk, bench.by('wren'), { tub, number, at: when });
const move = (from: string, to: string, number: number, more: Partial<Parameters<typeof logMove>[2]> = {}) =>
  logMove(bench.desk, bench.by('wren'), { from, to, number, ...more });

describe('a count', () => {
  it('says what was believed before, and what is now', () => {
    const first = taken(count('A1', 40, { method: undefined }));
    expect(first).toMatchObject({ saleable: 40, expected: null, newer: null, method: 'glance', surprise: null });
    loss('A1', 2);
    const second = taken(count('A1', 35));
    expect(second.method).toBe('full');
    expect(second.expected?.low).toBeLessThan(35);
    expect(second.expected?.high).toBeGreaterThan(38);
    near(second.now?.median, 35);
  });

  it('that contradicts is kept, believed, and pointed out with what was expected', () => {
    count('A1', 40);
    const far = taken(count('A1', 90));
    expect(far.surprise).toMatchObject({ of: 'saleable', number: 90 });
    expect(far.surprise?.expected.high).toBeLessThan(60);
    near(far.now?.median, 90);
    expect(taken(count('A2', 90)).surprise).toBeNull();
  });

  it('of an earlier day does not push out a newer one', () => {
    count('A1', 40);
    expect(count('A1', 90, { at: at('2027-04-01T08:00:00.000Z') })).toMatchObject({
      value: { expected: null, newer: { saleable: 40 } },
    });
    near(taken(loss('A1', 1)).left, 39);
  });

  it('may be none, but not ten thousand, half or less than none', () => {
    expect(count('A1', 0).ok).toBe(true);
    for (const wrong of [10_000, 1.5, -1, Number.NaN]) {
      expect(count('A1', wrong)).toMatchObject({ fault: { kind: 'impossible-amount', amount: 'saleable' } });
    }
    expect(count('A1', 5, { juveniles: -1 })).toMatchObject({ fault: { amount: 'juveniles' } });
  });

  it('of more than a tub can hold is asked about first', () => {
    const before = rowCounts(bench.folder);
    expect(count('A1', 400, { juveniles: 101 })).toMatchObject({
      fault: { kind: 'ask-many', number: 501, litres: 20 },
    });
    expect(rowCounts(bench.folder)).toEqual(before);
    expect(count('A1', 400, { juveniles: 101, sure: true }).ok).toBe(true);
  });
});

describe('a loss', () => {
  it('comes off the saleable ones', () => {
    count('A1', 40);
    const lost = taken(loss('A1', 3));
    expect(lost.inAWeek).toBe(3);
    near(lost.left, 37);
  });

  it('counts even at the same moment as the count, when it is logged after it', () => {
    const noon = at('2027-04-12T10:00:00.000Z');
    count('A1', 40, { at: noon });
    near(taken(loss('A1', 2, noon)).left, 38);
    near(taken(count('A1', 36, { at: noon })).expected?.median, 38);
    near(taken(stock(bench.desk, 'orange'))[0]?.saleable.median, 36);
  });

  it('cannot be none, ten thousand, or more than may well be there', () => {
    count('A1', 40);
    const before = rowCounts(bench.folder);
    for (const wrong of [0, 10_000]) expect(loss('A1', wrong)).toMatchObject({ fault: { kind: 'impossible-amount' } });
    expect(loss('A1', 55)).toMatchObject({ fault: { kind: 'too-few-there', number: 55 } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('may be of young ones that were counted', () => {
    count('A1', 2, { juveniles: 50 });
    near(taken(loss('A1', 10)).left, 0);
  });

  it('of a tub that was not counted yet leaves it not counted', () => {
    expect(loss('A1', 3)).toMatchObject({ value: { left: null } });
  });

  it('from before the count is not judged by it and does not change it', () => {
    count('A1', 5);
    near(taken(loss('A1', 12, at('2027-04-10T10:00:00.000Z'))).left, 5);
  });

  it('adds up over seven days', () => {
    count('A1', 40);
    loss('A1', 1);
    bench.advance({ days: 6 });
    expect(loss('A1', 2)).toMatchObject({ value: { inAWeek: 3 } });
    bench.advance({ days: 3 });
    expect(loss('A1', 1)).toMatchObject({ value: { inAWeek: 3 } });
  });
});

describe('a move', () => {
  it('takes from one tub and gives to the other', () => {
    count('A1', 40);
    count('A2', 10);
    const moved = taken(move('A1', 'A2', 15));
    near(moved.left, 25);
    near(moved.there, 25);
  });

  it('of young ones leaves the saleable as they are', () => {
    count('A1', 40);
    const moved = taken(move('A1', 'A2', 15, { stage: 'juvenile' }));
    near(moved.left, 40);
    expect(moved.there).toBeNull();
  });

  it('of more than is there, of none, or within one tub is refused', () => {
    count('A1', 10);
    const before = rowCounts(bench.folder);
    expect(move('A1', 'A2', 18)).toMatchObject({ fault: { kind: 'too-few-there', number: 18 } });
    expect(move('A1', 'A2', 0)).toMatchObject({ fault: { kind: 'impossible-amount' } });
    expect(move('A1', 'a 1', 3)).toMatchObject({ fault: { kind: 'same-tub' } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('into another line is asked about first', () => {
    count('A1', 10);
    const before = rowCounts(bench.folder);
    expect(move('A1', 'B1', 3)).toMatchObject({
      fault: { kind: 'ask-mix-lines', fromLine: 'orange', toLine: 'green', number: 3 },
    });
    expect(rowCounts(bench.folder)).toEqual(before);
    near(taken(move('A1', 'B1', 3, { mix: true })).left, 7);
  });
});

describe('a hold', () => {
  const free = () => {
    return taken(stock(bench.desk, 'orange'))[0]?.free ?? 0;
  };
  const hold = (until: Parameters<typeof setHold>[2]['until']) =>
    setHold(bench.desk, bench.by('wren'), { tub: 'A1', reason: 'medicine', until });

  it('takes a tub off sale up to and including its last day', () => {
    count('A1', 40);
    expect(free()).toBeGreaterThan(20);
    hold(day('2027-04-14'));
    expect(free()).toBe(0);
    bench.advance({ days: 1, hours: 5 });
    expect(free()).toBe(0);
    bench.advance({ hours: 1 });
    expect(free()).toBeGreaterThan(20);
  });

  it('without an end stays until it is lifted', () => {
    count('A1', 40);
    hold(null);
    bench.advance({ days: 40 });
    expect(free()).toBe(0);
    hold('now');
    expect(free()).toBeGreaterThan(15);
  });

  it('cannot end before today', () => {
    expect(hold(day('2027-04-12'))).toMatchObject({ fault: { kind: 'past-day', today: '2027-04-13' } });
  });
});
