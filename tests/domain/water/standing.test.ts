import { describe, expect, it } from 'vitest';
import { type Finding, type Instant, isAlarm, type JudgedValue, standingValues } from '../../../src/domain/index.ts';

const at = '2027-04-13T08:00:00.000Z' as Instant;
const value = (finding: Finding, more: Partial<JudgedValue> = {}): JudgedValue => ({
  finding,
  at,
  daysOld: 0,
  isChanged: false,
  ...more,
});
const nitrite = (state: Finding['state']): Finding => ({ of: 'nitrite', state, mgL: 1 });
const warm: Finding = { of: 'temperature', state: 'act', tempC: 31, oxygenMgL: 7.4 };

describe('what stands of a tub', () => {
  it('is what is not fine, the worst first and what a change takes out before the rest', () => {
    const soft: Finding = { of: 'gh', state: 'watch', dgh: 4 };
    const values = standingValues([
      value(soft),
      value(warm),
      value(nitrite('act')),
      value({ of: 'ph', state: 'fine', ph: 7 }),
    ]);
    expect(values.map(({ finding: { of }, state }) => [of, state])).toEqual([
      ['nitrite', 'act'],
      ['temperature', 'act'],
      ['gh', 'watch'],
    ]);
    expect(values.filter(isAlarm)).toHaveLength(1);
  });

  it('is to watch after a change where it harmed, and as it was where a change does not mend it', () => {
    expect(standingValues([value(nitrite('act'), { isChanged: true })])[0]).toMatchObject({ state: 'watch' });
    expect(standingValues([value(warm, { isChanged: true })])[0]).toMatchObject({ state: 'act' });
    expect(standingValues([value(nitrite('watch'), { isChanged: true })])[0]).toMatchObject({ state: 'watch' });
  });

  it('is old from the fifteenth day; heat of so long ago is forgotten, poison is not', () => {
    const aged = (daysOld: number) => standingValues([value(nitrite('act'), { daysOld }), value(warm, { daysOld })]);
    expect(aged(14).map(({ isOld }) => isOld)).toEqual([false, false]);
    expect(aged(15).map(({ finding: { of }, isOld }) => [of, isOld])).toEqual([['nitrite', true]]);
  });

  it('leaves nitrate to its estimate', () => {
    expect(standingValues([value({ of: 'nitrate', state: 'watch', mgL: 40, limitMgL: 20, sourceMgL: 5 })])).toEqual([]);
  });
});
