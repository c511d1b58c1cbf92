import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Mix, type MixAsk, type MixValues, mixRecipe, pureWater } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const nothing: MixValues = { ghDgh: null, khDkh: null, tdsMgL: null, nitrateMgL: null };
const tap: MixValues = { ghDgh: 12, khDkh: 8, tdsMgL: 300, nitrateMgL: 25 };

const asked = (target: Partial<MixValues>, rest: Partial<MixAsk> = {}): MixAsk => ({
  litres: 22,
  tap,
  pure: pureWater,
  salt: null,
  ...rest,
  target: { ...nothing, ...target },
});

function recipe(ask: MixAsk): Mix {
  const mix = mixRecipe(ask);
  if (!mix.ok) throw new Error(mix.fault.kind);
  return mix.value;
}

const close = (values: MixValues) =>
  Object.fromEntries(
    Object.entries(values).map(([name, value]) => [name, value === null ? null : Number(value.toFixed(2))]),
  );

// Mass balance worked by hand: c = (V_tap·c_tap + V_pure·c_pure)/V.
describe('a mix of tap and pure water', () => {
  it('halves the tap for half its GH, and says what else comes out', () => {
    const mix = recipe(asked({ ghDgh: 6 }));
    expect(mix).toMatchObject({ tapL: 11, pureL: 11, saltG: 0, decides: ['ghDgh'], misses: [] });
    expect(close(mix.comesOut)).toEqual({ ghDgh: 6, khDkh: 4, tdsMgL: 150, nitrateMgL: 12.5 });
  });

  it.each([
    [{ khDkh: 2 }, 5.5, 'khDkh'],
    [{ tdsMgL: 100 }, 7.3, 'tdsMgL'],
    [{ nitrateMgL: 10 }, 8.8, 'nitrateMgL'],
    [{ ghDgh: 0 }, 0, 'ghDgh'],
    [{ ghDgh: 12 }, 22, 'ghDgh'],
  ])('for %o takes %d L of tap water', (target, tapL, decides) => {
    expect(recipe(asked(target))).toMatchObject({ tapL, decides: [decides], misses: [] });
  });

  it('takes only tap water where its nitrate is low enough', () => {
    expect(recipe(asked({ nitrateMgL: 40 }))).toMatchObject({ tapL: 22, pureL: 0, decides: ['nitrateMgL'] });
    expect(recipe(asked({ nitrateMgL: 40, ghDgh: 9 }))).toMatchObject({ tapL: 16.5, decides: ['ghDgh'], misses: [] });
  });

  it('does not round nitrate over its target', () => {
    // 22 · 10/26 = 8.46 L would round up.
    const mix = recipe(asked({ nitrateMgL: 10 }, { tap: { ...tap, nitrateMgL: 25.9 } }));
    expect(mix.tapL).toBe(8.4);
    expect(mix.comesOut.nitrateMgL).toBeLessThanOrEqual(10);
  });

  it('meets targets that agree, each within what kits can tell', () => {
    const mix = recipe(asked({ ghDgh: 6, khDkh: 4.2, tdsMgL: 150 }));
    expect(mix).toMatchObject({ decides: ['ghDgh', 'khDkh', 'tdsMgL'], misses: [] });
    expect(Math.abs(mix.tapL - 11)).toBeLessThanOrEqual(0.5);
  });

  it('comes nearest to targets that contradict, and says by how much each is missed', () => {
    // GH 9 wants a share of 0.75, KH 2 one of 0.25. Least squares: (12·9 + 8·2)/(12² + 8²) = 124/208.
    const mix = recipe(asked({ ghDgh: 9, khDkh: 2 }));
    expect(mix.tapL).toBeCloseTo(13.1, 9);
    expect(mix.misses.map(({ name, asked: aim, comesOut }) => [name, aim, Number(comesOut.toFixed(2))])).toEqual([
      ['ghDgh', 9, 7.15],
      ['khDkh', 2, 4.76],
    ]);
  });

  it('lets nitrate decide over GH, as its target is the most there may be', () => {
    const mix = recipe(asked({ ghDgh: 9, nitrateMgL: 10 }));
    expect(mix).toMatchObject({ tapL: 8.8, decides: ['nitrateMgL'], misses: [{ name: 'ghDgh', asked: 9 }] });
    expect(mix.misses[0]?.comesOut).toBeCloseTo(4.8, 9);
  });

  it('counts what a second water brings, also where that is more', () => {
    const rain = { ghDgh: 2, khDkh: 1, tdsMgL: 30, nitrateMgL: 5 };
    expect(recipe(asked({ ghDgh: 7 }, { pure: rain }))).toMatchObject({ tapL: 11, pureL: 11 });
    const worse = { ghDgh: 0, khDkh: 0, tdsMgL: 0, nitrateMgL: 50 };
    expect(recipe(asked({ nitrateMgL: 30 }, { pure: worse }))).toMatchObject({ tapL: 22 });
    const held = recipe(asked({ ghDgh: 6, nitrateMgL: 30 }, { pure: worse }));
    expect(held).toMatchObject({ tapL: 17.6, decides: ['nitrateMgL'], misses: [{ name: 'ghDgh' }] });
    const both = recipe(asked({ nitrateMgL: 10 }, { pure: worse }));
    expect(both).toMatchObject({ tapL: 22, misses: [{ name: 'nitrateMgL', asked: 10, comesOut: 25 }] });
  });

  it('leaves open what is not known of the tap', () => {
    const mix = recipe(asked({ ghDgh: 6 }, { tap: { ...nothing, ghDgh: 12, nitrateMgL: 25 } }));
    expect(mix.comesOut).toEqual({ ghDgh: 6, khDkh: null, tdsMgL: null, nitrateMgL: 12.5 });
  });
});

describe('a mix with mineral salt', () => {
  // Its label: 1 g in 10 L adds 3 °dGH. 1 g in 10 L is 100 mg/L.
  const salt = { ghDgh: 3, khDkh: 0 };

  it('lifts GH over the tap with the whole tap and the missing grams', () => {
    // 3 °dGH missing in 22 L: 2.2 g.
    const mix = recipe(asked({ ghDgh: 15 }, { salt }));
    expect(mix).toMatchObject({ tapL: 22, pureL: 0, saltG: 2.2, decides: ['ghDgh'] });
    expect(close(mix.comesOut)).toEqual({ ghDgh: 15, khDkh: 8, tdsMgL: 400, nitrateMgL: 25 });
  });

  it('takes none where dilution does it', () => {
    expect(recipe(asked({ ghDgh: 6 }, { salt }))).toMatchObject({ tapL: 11, pureL: 11, saltG: 0 });
  });

  it('makes up what low nitrate takes away', () => {
    // A fifth of tap water: GH 2.4, 3.6 missing: 1.2 g in 10 L.
    const mix = recipe(asked({ ghDgh: 6, nitrateMgL: 5 }, { salt }));
    expect(mix).toMatchObject({ tapL: 4.4, pureL: 17.6, saltG: 2.6, decides: ['nitrateMgL', 'ghDgh'], misses: [] });
  });

  it('meets GH and KH apart, each by its own share', () => {
    // KH 4: half tap water, GH 6 of it; GH 9 asked: 1 g in 10 L.
    const mix = recipe(asked({ ghDgh: 9, khDkh: 4 }, { salt }));
    expect(mix).toMatchObject({ tapL: 11, pureL: 11, saltG: 2.2, decides: ['ghDgh', 'khDkh'], misses: [] });
  });

  it('makes pure water hard, where nothing of the tap may be in it', () => {
    expect(recipe(asked({ ghDgh: 6, nitrateMgL: 0 }, { salt }))).toMatchObject({ tapL: 0, pureL: 22, saltG: 4.4 });
  });

  it('weighs small amounts in hundredths of a gram', () => {
    expect(recipe(asked({ ghDgh: 13 }, { salt, litres: 5 })).saltG).toBe(0.17);
  });
});

describe('no mix', () => {
  it.each([
    ['without a target', asked({}), { kind: 'no-target' }],
    [
      'while the tap is not known',
      asked({ ghDgh: 6, khDkh: 3, nitrateMgL: 5 }, { tap: { ...nothing, nitrateMgL: 25 } }),
      { kind: 'tap-unknown', names: ['ghDgh', 'khDkh'] },
    ],
    ['over the tap without salt', asked({ ghDgh: 15 }), { kind: 'over-sources', name: 'ghDgh', asked: 15, most: 12 }],
    [
      'over the tap with a salt that has none of it',
      asked({ khDkh: 12 }, { salt: { ghDgh: 3, khDkh: 0 } }),
      { kind: 'over-sources', name: 'khDkh', asked: 12, most: 8 },
    ],
  ])('%s', (_, ask, fault) => {
    expect(mixRecipe(ask)).toEqual({ ok: false, fault });
  });
});

describe('every mix', () => {
  const value = (max: number) => fc.double({ min: 0, max, noNaN: true });
  const waters = fc.record({ ghDgh: value(30), khDkh: value(20), tdsMgL: value(900), nitrateMgL: value(100) });
  const targets = fc.record({
    ghDgh: fc.option(value(30)),
    khDkh: fc.option(value(20)),
    tdsMgL: fc.option(value(900)),
    nitrateMgL: fc.option(value(100)),
  });
  const salts = fc.option(fc.record({ ghDgh: value(6), khDkh: value(6) }));
  const litres = fc.integer({ min: 10, max: 20_000 }).map((tenths) => tenths / 10);

  it('is whole, balances its masses to rounding, and keeps nitrate under its target', () => {
    fc.assert(
      fc.property(litres, waters, targets, salts, (wanted, from, target, salt) => {
        const made = mixRecipe({ litres: wanted, tap: from, pure: pureWater, salt, target });
        if (!made.ok) return;
        const { tapL, pureL, saltG, comesOut, misses } = made.value;
        expect(tapL).toBeGreaterThanOrEqual(0);
        expect(pureL).toBeGreaterThanOrEqual(0);
        expect(saltG).toBeGreaterThanOrEqual(0);
        expect(tapL + pureL).toBeCloseTo(wanted, 9);
        const held = (fromTap: number, perGram: number): number => (tapL * fromTap + saltG * 10 * perGram) / wanted;
        expect(comesOut.ghDgh).toBeCloseTo(held(from.ghDgh, salt?.ghDgh ?? 0), 6);
        expect(comesOut.khDkh).toBeCloseTo(held(from.khDkh, salt?.khDkh ?? 0), 6);
        expect(comesOut.tdsMgL).toBeCloseTo(held(from.tdsMgL, 100), 6);
        expect(comesOut.nitrateMgL).toBeCloseTo(held(from.nitrateMgL, 0), 6);
        if (target.nitrateMgL !== null) expect(comesOut.nitrateMgL).toBeLessThanOrEqual(target.nitrateMgL + 1e-4);
        expect(misses.every(({ name, asked: aim }) => target[name] === aim)).toBe(true);
      }),
    );
  });

  it('takes more tap water for more GH, and no salt while the tap is hard enough', () => {
    fc.assert(
      fc.property(litres, waters, value(1), value(1), (wanted, from, one, other) => {
        const [less = 0, more = 0] = [one, other].sort((a, b) => a - b);
        const take = (share: number) =>
          recipe(asked({ ghDgh: share * from.ghDgh }, { litres: wanted, tap: from, salt: { ghDgh: 3, khDkh: 0 } }));
        expect(take(less).tapL).toBeLessThanOrEqual(take(more).tapL);
        expect(take(more).saltG).toBe(0);
      }),
    );
  });

  it('is not bettered by any other share of tap water or dose of salt', () => {
    const cost = (comesOut: MixValues, target: MixValues): number =>
      (((comesOut.ghDgh ?? 0) - (target.ghDgh ?? 0)) / 0.5) ** 2 +
      (((comesOut.khDkh ?? 0) - (target.khDkh ?? 0)) / 0.5) ** 2;
    const salt = { ghDgh: 3, khDkh: 1 };
    const hard = {
      ghDgh: fc.double({ min: 1, max: 30, noNaN: true }),
      khDkh: fc.double({ min: 1, max: 20, noNaN: true }),
    };
    fc.assert(
      fc.property(fc.record(hard), fc.record(hard), value(1), value(4), (from, aims, share, dose) => {
        const target = { ...nothing, ...aims };
        const made = recipe(asked(target, { litres: 2000, salt, tap: { ...tap, ...from } }));
        const other = {
          ...nothing,
          ghDgh: share * from.ghDgh + dose * salt.ghDgh,
          khDkh: share * from.khDkh + dose * salt.khDkh,
        };
        expect(cost(made.comesOut, target)).toBeLessThanOrEqual(cost(other, target) + 0.01);
      }),
    );
  });
});
