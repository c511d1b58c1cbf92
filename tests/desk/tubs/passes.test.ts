import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addTubs, logCount, logPasses, setLine, stock, undo } from '../../../src/desk/index.ts';
import type { Instant } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { rowCounts } from '../../support/rowCounts.ts';
import { taken } from '../../support/sellingDesk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
  setLine(bench.desk, bench.by('wren'), { line: 'orange' });
  setLine(bench.desk, bench.by('wren'), { line: 'green' });
  addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2'], line: 'orange', litres: 40 });
  addTubs(bench.desk, bench.by('wren'), { names: ['B1'], line: 'green', litres: 40 });
});
afterEach(() => bench.close());

const at = (text: string): Instant => text as Instant;
const passes = (tub: string, caught: readonly number[], more: Partial<Parameters<typeof logPasses>[2]> = {}) => {
  const [first = Number.NaN, second = Number.NaN, third, fourth] = caught;
  return logPasses(bench.desk, bench.by('wren'), { tub, first, second, third, fourth, ...more });
};
const count = (tub: string, saleable: number, more: Partial<Parameters<typeof logCount>[2]> = {}) =>
  logCount(bench.desk, bench.by('wren'), { tub, saleable, ...more });

describe('a count by removal passes', () => {
  it('books the estimate as the saleable animals, and keeps the catches', () => {
    count('A1', 130, { method: 'full' });
    expect(passes('A1', [79, 28])).toMatchObject({
      value: {
        ...{ saleable: 122, method: 'passes', juveniles: null, berried: null, newer: null, surprise: null },
        ...{ catches: [79, 28], estimate: { low: 115, high: 141, passes: 2, caught: 107 }, next: { catch: 10 } },
      },
    });
    const [of] = taken(stock(bench.desk, 'orange'));
    expect(of?.saleable.median).toBeGreaterThan(115);
    expect(of?.saleable.median).toBeLessThan(136);
    expect(of?.free).toBeGreaterThan(95);
    expect(of?.free).toBeLessThanOrEqual(125);
    expect(bench.desk.store.animals.latestCount(1)).toMatchObject({ method: 'passes', passes: [79, 28] });
  });

  it('of four passes leaves no other to be added', () => {
    expect(passes('A1', [20, 12, 8, 5])).toMatchObject({ value: { next: null, estimate: { passes: 4 } } });
  });

  it('of an earlier day does not push out a newer one', () => {
    count('A1', 40, { method: 'full' });
    expect(passes('A1', [79, 28], { at: at('2027-04-01T08:00:00.000Z') })).toMatchObject({
      value: { expected: null, newer: { saleable: 40 } },
    });
    expect(taken(stock(bench.desk, 'orange'))[0]?.saleable.median).toBeLessThan(48);
  });

  it('gives way to the count before it when it is undone', () => {
    count('A1', 40, { method: 'full' });
    const before = stock(bench.desk, 'orange');
    const logged = passes('A1', [79, 28]);
    if (!logged.ok) throw new Error(logged.fault.kind);
    expect(undo(bench.desk, bench.by('wren'), false, logged.value.entryId).ok).toBe(true);
    expect(stock(bench.desk, 'orange')).toEqual(before);
  });

  it('is refused where the catches tell nothing, and nothing is written', () => {
    const before = rowCounts(bench.folder);
    expect(passes('A1', [72, 56])).toMatchObject({
      fault: { kind: 'passes-tell-nothing', tub: 'A1', catches: [72, 56], fault: { kind: 'weak-decline' } },
    });
    expect(passes('A1', [5, 7, 8])).toMatchObject({ fault: { fault: { kind: 'no-decline', caught: 20 } } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it.each([
    [[-1, 2], { kind: 'impossible-amount', amount: 'pass 1' }],
    [[30, 0.5], { kind: 'impossible-amount', amount: 'pass 2' }],
    [[30, 12, 9999], { kind: 'impossible-amount', amount: 'pass 3' }],
    [[30, 12, 5, Number.NaN], { kind: 'impossible-amount', amount: 'pass 4' }],
  ])('of %j is refused by its pass', (caught, fault) => {
    expect(passes('A1', caught)).toMatchObject({ fault });
  });

  it('with a pass left out, in the future, or of more than a tub holds is not written as it stands', () => {
    const before = rowCounts(bench.folder);
    expect(passes('A1', [30, 12], { fourth: 3 })).toMatchObject({ fault: { kind: 'pass-left-out' } });
    expect(passes('A1', [30, 12], { at: at('2027-04-14T08:00:00.000Z') })).toMatchObject({
      fault: { kind: 'in-the-future' },
    });
    expect(passes('A1', [700, 200])).toMatchObject({ fault: { kind: 'ask-many', number: 980, litres: 32 } });
    expect(rowCounts(bench.folder)).toEqual(before);
    expect(passes('A1', [700, 200], { sure: true })).toMatchObject({ value: { saleable: 980 } });
  });
});

describe('a count at the dish', () => {
  const dishOf = (tub: string, seen: number) => {
    const logged = count(tub, seen, { method: 'dish' });
    if (!logged.ok) throw new Error(logged.fault.kind);
    return logged.value.dish;
  };

  it('is told by the prior alone while no full count stands beside one', () => {
    expect(dishOf('A1', 12)).toMatchObject({ pairs: 0, median: 30 });
    expect(count('A1', 30, { method: 'full' })).toMatchObject({ value: { dish: null } });
    expect(dishOf('A1', 0)).toBeNull();
  });

  it("is told by the tub's own full counts, and by those of its line", () => {
    for (let week = 0; week < 6; week += 1) {
      count('A1', 10, { method: 'dish' });
      bench.advance({ hours: 1 });
      count('A1', 50, { method: 'full' });
      bench.advance({ days: 7 });
    }
    const [own, ofLine, ofOther] = [dishOf('A1', 10), dishOf('A2', 10), dishOf('B1', 10)];
    expect(own?.pairs).toBe(6);
    expect(own?.median).toBeGreaterThan(44);
    expect(ofLine?.pairs).toBe(6);
    expect(ofLine?.median).toBeGreaterThan(40);
    expect(ofLine?.logSd).toBeGreaterThan(own?.logSd ?? 0);
    expect(ofOther).toMatchObject({ pairs: 0, median: 25 });
  });

  it('takes a count by passes as a full one', () => {
    count('A1', 40, { method: 'dish' });
    bench.advance({ hours: 1 });
    passes('A1', [79, 28]);
    bench.advance({ days: 30 });
    const dish = dishOf('A1', 40);
    expect(dish?.pairs).toBe(1);
    expect(dish?.median).toBeGreaterThan(100);
  });
});
