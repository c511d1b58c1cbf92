import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type MixInput, prepareMix, setBusiness } from '../../../src/desk/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T08:00:00Z');
});
afterEach(() => bench.close());

const setTap = (): void => {
  const set = setBusiness(bench.desk, bench.by('wren'), { sourceGhDgh: 12, sourceKhDkh: 8, sourceTdsMgL: 300 });
  if (!set.ok) throw new Error(set.fault.kind);
};

describe('preparing a mix', () => {
  it('takes the tap from the settings and pure water as empty', () => {
    setTap();
    expect(prepareMix(bench.desk, { litres: 22, gh: 6 })).toMatchObject({
      ok: true,
      value: {
        target: { ghDgh: 6, khDkh: null, tdsMgL: null, nitrateMgL: null },
        tap: { ghDgh: 12, khDkh: 8, tdsMgL: 300, nitrateMgL: 5 },
        mix: { tapL: 11, pureL: 11, comesOut: { ghDgh: 6, khDkh: 4, tdsMgL: 150, nitrateMgL: 2.5 } },
      },
    });
  });

  it('counts a salt that brings only one of the two', () => {
    setTap();
    expect(prepareMix(bench.desk, { litres: 10, kh: 9, saltKh: 2 })).toMatchObject({
      ok: true,
      value: { mix: { tapL: 10, saltG: 0.5, comesOut: { ghDgh: 12, khDkh: 9 } } },
    });
    expect(prepareMix(bench.desk, { litres: 10, gh: 15, saltKh: 2 })).toMatchObject({
      ok: false,
      fault: { kind: 'over-sources', name: 'ghDgh' },
    });
  });

  it('is refused while the tap is not known', () => {
    expect(prepareMix(bench.desk, { litres: 22, gh: 6, tds: 150 })).toEqual({
      ok: false,
      fault: { kind: 'tap-unknown', names: ['ghDgh', 'tdsMgL'] },
    });
    expect(prepareMix(bench.desk, { litres: 22, nitrate: 2 })).toMatchObject({
      ok: true,
      value: { mix: { tapL: 8.8 } },
    });
  });

  it.each<[keyof MixInput, number]>([
    ['litres', 0.9],
    ['litres', 2001],
    ['litres', Number.NaN],
    ['gh', -1],
    ['gh', 51],
    ['kh', 41],
    ['tds', 3001],
    ['nitrate', 501],
    ['saltGh', 0],
    ['saltKh', 11],
  ])('is refused with %s of %d', (name, typed) => {
    setTap();
    expect(prepareMix(bench.desk, { litres: 22, gh: 6, [name]: typed })).toMatchObject({
      ok: false,
      fault: { kind: 'impossible-mix', name, typed },
    });
  });
});
