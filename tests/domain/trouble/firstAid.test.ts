import { describe, expect, it } from 'vitest';
import {
  defaultBusiness,
  type FirstAidQuestion,
  firstAid,
  judgeReading,
  noWaterValues,
  type WaterValues,
} from '../../../src/domain/index.ts';

const unknown = { tempC: null, tdsMgL: null, ghDgh: null };

/** First aid for a tub of 20 L of which this was measured today, pH 7.4 and 22 °C unless said otherwise. */
function aid({ measured = {}, ...more }: Partial<FirstAidQuestion> & { measured?: Partial<WaterValues> } = {}) {
  const known = { ph: 7.4, tempC: 22, usualTdsMgL: null };
  const { findings } = judgeReading({ ...noWaterValues, ...measured }, known, defaultBusiness);
  return firstAid({
    changed: ['nothing'],
    seen: ['lying still'],
    findings,
    fresh: findings.map(({ of }) => of),
    netLitres: 20,
    swapped: 0,
    changesLogged: 0,
    water: { tub: unknown, source: unknown },
    sameLine: [],
    ...more,
  });
}
const doings = (of: Parameters<typeof aid>[0]): string[] => aid(of).steps.map((step) => step.do);
const step = (of: Parameters<typeof aid>[0], what: string) => aid(of).steps.find((one) => one.do === what);

const clean = { ammoniaMgL: 0, nitriteMgL: 0, tempC: 22, ph: 7.4 };

describe('first aid', () => {
  it('begins with air, whatever else is wrong, and says why', () => {
    expect(aid().steps[0]).toEqual({ do: 'air', why: 'always' });
    expect(step({ seen: ['no bubbles', 'at the surface'] }, 'air')).toEqual({ do: 'air', why: 'no bubbles' });
    expect(step({ changed: ['air'] }, 'air')).toEqual({ do: 'air', why: 'air' });
    expect(step({ seen: ['at the surface'] }, 'air')).toEqual({ do: 'air', why: 'at the surface' });
    expect(step({ measured: { ammoniaMgL: 8 } }, 'air')).toEqual({ do: 'air', why: 'ammonia' });
    expect(step({ measured: { nitriteMgL: 2 } }, 'air')).toEqual({ do: 'air', why: 'nitrite' });
    expect(step({ measured: { tempC: 30 } }, 'air')).toEqual({ do: 'air', why: 'heat' });
  });

  it('where nothing is known tests first, then changes a little', () => {
    expect(doings({})).toEqual(['air', 'clear', 'test', 'change']);
    expect(step({}, 'test')).toEqual({ do: 'test', values: ['ammoniaMgL', 'nitriteMgL', 'tempC', 'ph'] });
    expect(step({}, 'change')).toMatchObject({ why: 'not known', litres: 3 });
  });

  it('tests only what was not measured', () => {
    expect(doings({ measured: clean })).not.toContain('test');
    expect(step({ measured: { ammoniaMgL: 0 } }, 'test')).toMatchObject({ values: ['nitriteMgL', 'tempC', 'ph'] });
    expect(step({ measured: clean, seen: ['white ring'] }, 'test')).toMatchObject({ values: ['ghDgh', 'tdsMgL'] });
  });

  it('follows what was measured: harmful ammonia before all else that speaks about water', () => {
    const measured = { ...clean, ammoniaMgL: 8 };
    expect(step({ measured, seen: ['white ring'], changesLogged: 1 }, 'change')).toMatchObject({
      why: 'ammonia',
      litres: 5,
    });
    expect(step({ measured: { ...clean, nitriteMgL: 1 } }, 'change')).toMatchObject({ why: 'nitrite', litres: 5 });
    expect(step({ measured: { ...clean, nitriteMgL: 0.2 } }, 'change')).toMatchObject({
      why: 'some nitrite',
      litres: 3,
    });
    expect(doings({ measured: { ...clean, nitriteMgL: 0.2 }, seen: ['white ring'] })).toContain('no-change');
  });

  it('goes by what was measured in three days, and has it tested again', () => {
    const older = { measured: { ...clean, nitriteMgL: 1 }, fresh: [] };
    expect(step(older, 'change')).toMatchObject({ why: 'nitrite', mgL: 1 });
    expect(step(older, 'test')).toMatchObject({ values: ['ammoniaMgL', 'nitriteMgL', 'tempC', 'ph'] });
    // What was fine two days ago does not say that it is now.
    expect(step({ measured: clean, fresh: [] }, 'change')).toMatchObject({ why: 'not known', mgL: null });
  });

  it('changes nothing where the last change may be the cause, or the water is fine', () => {
    expect(step({ seen: ['white ring'] }, 'no-change')).toEqual({ do: 'no-change', why: 'minerals' });
    expect(step({ seen: ['cramped'], changed: ['water'] }, 'no-change')).toEqual({ do: 'no-change', why: 'minerals' });
    expect(step({ seen: ['cramped'], changesLogged: 1 }, 'no-change')).toEqual({ do: 'no-change', why: 'minerals' });
    expect(doings({ seen: ['cramped'] })).toContain('change');
    expect(step({ measured: clean }, 'no-change')).toEqual({ do: 'no-change', why: 'water fine' });
    expect(doings({ measured: clean, seen: ['cloudy'] })).toContain('change');
  });

  it('adds no change to a quarter that was changed today', () => {
    expect(step({ measured: { ...clean, ammoniaMgL: 8 }, swapped: 0.25 }, 'no-change')).toEqual({
      do: 'no-change',
      why: 'changed today',
    });
  });

  it.each(['plants', 'remedy', 'metal', 'spray'] as const)('takes %s out, then changes water, then carbon', (what) => {
    const found = aid({ changed: [what], measured: clean });
    expect(found.steps.map((one) => one.do)).toEqual(['air', 'take-out', 'clear', 'change', 'carbon']);
    expect(found.steps[1]).toEqual({ do: 'take-out', what });
    expect(found.steps.at(-1)).toEqual({ do: 'carbon', why: what });
  });

  it('doses dechlorinator where the new water was not treated', () => {
    expect(doings({ changed: ['untreated'], measured: clean })).toEqual(['air', 'dechlorinate', 'clear', 'change']);
  });

  it('cools a tub that is hot, or that nobody measured on a hot day, and warms a cold one', () => {
    expect(step({ measured: { tempC: 29 } }, 'cool')).toEqual({ do: 'cool', tempC: 29 });
    expect(step({ changed: ['heat'] }, 'cool')).toEqual({ do: 'cool', tempC: null });
    expect(step({ changed: ['heat'], measured: { tempC: 22 } }, 'cool')).toBeUndefined();
    expect(step({ measured: { tempC: 7 } }, 'warm')).toEqual({ do: 'warm', tempC: 7 });
  });

  it('takes the food out where there was much of it, or the water is cloudy', () => {
    expect(step({ changed: ['food'] }, 'clear')).toMatchObject({ food: true });
    expect(step({ seen: ['cloudy'] }, 'clear')).toMatchObject({ food: true });
    expect(step({}, 'clear')).toMatchObject({ food: false });
  });

  it('spreads a line only to a tub of its own, where the water is what harms, and never what infects', () => {
    expect(step({ changed: ['plants'], sameLine: ['A2', 'A4'] }, 'spread')).toEqual({ do: 'spread', to: 'A2' });
    expect(doings({ changed: ['plants'] })).not.toContain('spread');
    expect(doings({ sameLine: ['A2'] })).not.toContain('spread');
    const infected = doings({ changed: ['plants'], seen: ['growths'], sameLine: ['A2'] });
    expect([infected.includes('apart'), infected.includes('spread')]).toEqual([true, false]);
    expect(step({ changed: ['animals'] }, 'apart')).toEqual({ do: 'apart', why: 'animals' });
  });

  it('says where it is beyond husbandry', () => {
    expect(aid().beyond).toEqual([]);
    expect(aid({ changed: ['remedy'], seen: ['growths', 'milky'] }).beyond).toEqual(['growths', 'milky', 'remedy']);
    expect(aid({ seen: ['many dead'], measured: clean }).beyond).toEqual(['many dead']);
    expect(aid({ seen: ['many dead'] }).beyond).toEqual([]);
    expect(aid({ seen: ['many dead'], changed: ['food'], measured: clean }).beyond).toEqual([]);
  });
});
