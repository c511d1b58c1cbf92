import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addTubs,
  editTub,
  findTub,
  logCount,
  racksOf,
  retireTub,
  setLine,
  tubById,
  tubsInUse,
} from '../../../src/desk/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { rowCounts } from '../../support/rowCounts.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
  setLine(bench.desk, bench.by('wren'), { line: 'orange' });
});
afterEach(() => bench.close());

const add = (names: string[], more: Partial<Parameters<typeof addTubs>[2]> = {}) =>
  addTubs(bench.desk, bench.by('wren'), { names, line: 'orange', litres: 25, ...more });
const edit = (input: Parameters<typeof editTub>[2]) => editTub(bench.desk, bench.by('wren'), input);

describe('adding tubs', () => {
  it('makes each of a range, with the stated defaults', () => {
    add(['A1', 'A2', 'A3', 'A4', 'A5', 'A6']);
    expect(tubsInUse(bench.desk)).toHaveLength(6);
    expect(tubsInUse(bench.desk)[5]).toMatchObject({
      name: 'A6',
      netLitres: 20,
      rack: 'A',
      role: 'breeding',
      lineName: 'orange',
    });
  });

  it('takes the rack from the letters of the name', () => {
    add(['B12']);
    add(['Keller 3']);
    add(['7']);
    add(['C1'], { rack: ' window ' });
    expect(racksOf(bench.desk)).toEqual(['A', 'B', 'KELLER', 'window']);
  });

  it.each<[string, string[], Partial<Parameters<typeof addTubs>[2]>, string]>([
    ['an unknown line', ['A1'], { line: 'ornge' }, 'unknown'],
    ['no litres', ['A1'], { litres: 0 }, 'impossible-amount'],
    ['ten thousand litres', ['A1'], { litres: 10_000 }, 'impossible-amount'],
    ['a thimble', ['A1'], { litres: 0.5 }, 'impossible-amount'],
    ['more net than gross', ['A1'], { netLitres: 30 }, 'impossible-amount'],
    ['a name of nothing', ['A1', '--'], {}, 'bad-name'],
    ['one name twice', ['A1', 'a1'], {}, 'name-taken'],
    ['a rack name that no control can carry', ['A1'], { rack: '棚'.repeat(20) }, 'bad-name'],
    ['a rack name longer than a line', ['A1'], { rack: 'r'.repeat(31) }, 'bad-name'],
  ])('with %s adds none', (_, names, more, kind) => {
    const before = rowCounts(bench.folder);
    expect(add(names, more)).toMatchObject({ ok: false, fault: { kind } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('adds none of a range when one name is taken', () => {
    add(['A3']);
    const before = rowCounts(bench.folder);
    expect(add(['A1', 'A2', 'A3'])).toMatchObject({ fault: { kind: 'name-taken', name: 'A3' } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });
});

describe('finding a tub', () => {
  it('takes no notice of case, blanks and the word tub', () => {
    add(['A1']);
    for (const typed of ['A1', 'a1', ' a 1 ', 'tub A1', 'Tub a1']) {
      expect(findTub(bench.desk, typed)).toMatchObject({ value: { name: 'A1' } });
    }
  });

  it('finds one that is called Tub 1', () => {
    add(['Tub 1', 'Tub 2']);
    expect(findTub(bench.desk, 'tub 1')).toMatchObject({ value: { name: 'Tub 1' } });
  });

  it('names those near one that is not there', () => {
    add(['A1', 'A2', 'B7']);
    expect(findTub(bench.desk, 'A9')).toMatchObject({
      fault: { kind: 'unknown', noun: 'tub', typed: 'A9', near: ['A1', 'A2'] },
    });
  });

  it('says of a retired one that it is', () => {
    add(['A1']);
    retireTub(bench.desk, bench.by('wren'), 'A1', 'leaks');
    for (const typed of ['A1', 'tub a1'])
      expect(findTub(bench.desk, typed)).toMatchObject({ fault: { kind: 'tub-retired' } });
    add(['A1']);
    expect(findTub(bench.desk, 'A1')).toMatchObject({ value: { name: 'A1', retired: null } });
  });
});

describe('editing a tub', () => {
  it('changes what is given and keeps the share of net water', () => {
    add(['A1'], { litres: 25, netLitres: 15 });
    expect(edit({ tub: 'A1', litres: 50, name: 'A9' })).toMatchObject({
      value: { before: { name: 'A1' }, after: { name: 'A9', litres: 50, netLitres: 30, rack: 'A' } },
    });
  });

  it.each([
    [{}, 'nothing-given'],
    [{ name: 'A2' }, 'name-taken'],
    [{ name: '!' }, 'bad-name'],
    [{ netLitres: 26 }, 'impossible-amount'],
    [{ line: 'green' }, 'unknown'],
    [{ rack: '棚'.repeat(20) }, 'bad-name'],
  ])('to %o is refused', (change, kind) => {
    add(['A1', 'A2']);
    const before = rowCounts(bench.folder);
    expect(edit({ tub: 'A1', ...change })).toMatchObject({ ok: false, fault: { kind } });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('may write its own name another way', () => {
    add(['a1']);
    expect(edit({ tub: 'A1', name: 'A1' })).toMatchObject({ value: { after: { name: 'A1' } } });
  });
});

describe('retiring a tub', () => {
  it('keeps it and its history, but out of use', () => {
    add(['A1', 'A2']);
    const id = tubsInUse(bench.desk)[0]?.id ?? 0;
    retireTub(bench.desk, bench.by('wren'), 'A1', 'leaks');
    expect(tubsInUse(bench.desk).map(({ name }) => name)).toEqual(['A2']);
    expect(tubById(bench.desk, id)).toMatchObject({ name: 'A1', retired: { reason: 'leaks' } });
  });

  it('is refused while it holds animals by its counts', () => {
    add(['A1']);
    logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: 3 });
    const before = rowCounts(bench.folder);
    expect(retireTub(bench.desk, bench.by('wren'), 'A1', 'leaks')).toMatchObject({
      fault: { kind: 'tub-in-use', tub: 'A1' },
    });
    expect(rowCounts(bench.folder)).toEqual(before);
    logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: 0, at: bench.advance({ minutes: 1 }) });
    expect(retireTub(bench.desk, bench.by('wren'), 'A1', 'leaks').ok).toBe(true);
  });
});
