import { describe, expect, it } from 'vitest';
import { judgeReading, noWaterValues, type WaterState, type WaterValues } from '../../../src/domain/index.ts';

const unknown = { ph: null, tempC: null, usualTdsMgL: null };
const business = { nitrateLimitMgL: 20, sourceNitrateMgL: 5, altitudeM: 0 };
const judge = (values: Partial<WaterValues>, known: Parameters<typeof judgeReading>[1] = unknown) =>
  judgeReading({ ...noWaterValues, ...values }, known, business);

describe('the verdict on a reading', () => {
  it('is act at 0.05 mg/L of un-ionised ammonia: 1 mg/L at 24 °C and pH 8', () => {
    // University of Florida IFAS Extension FA16: TAN 1.0 mg/L × 0.0502; harm to fish begins above 0.05 mg/L.
    const { state, findings } = judge({ ammoniaMgL: 1, ph: 8, tempC: 24 });
    expect(state).toBe('act');
    expect(findings[0]).toMatchObject({ of: 'ammonia', state: 'act', assumed: [] });
    expect(findings[0]?.of === 'ammonia' && findings[0].unionisedMgL).toBeCloseTo(0.0502, 4);
  });

  it('sees the same ammonia as watch in sour cool water', () => {
    expect(judge({ ammoniaMgL: 1, ph: 6.8, tempC: 18 }).state).toBe('watch');
  });

  it("takes the tub's last pH and temperature, and names what it had to assume", () => {
    expect(judge({ ammoniaMgL: 1 }, { ph: 6.8, tempC: 18, usualTdsMgL: null }).findings[0]).toMatchObject({
      state: 'watch',
      assumed: [],
    });
    expect(judge({ ammoniaMgL: 1 }).findings[0]).toMatchObject({ state: 'act', assumed: ['pH', 'temperature'] });
    expect(judge({ ammoniaMgL: 1, ph: 7 }).findings[0]).toMatchObject({ assumed: ['temperature'] });
  });

  // Bands: common practice, no source.
  it.each<[Partial<WaterValues>, WaterState]>([
    [{ ammoniaMgL: 0 }, 'fine'],
    [{ nitriteMgL: 0 }, 'fine'],
    [{ nitriteMgL: 0.1 }, 'watch'],
    [{ nitriteMgL: 0.6 }, 'act'],
    [{ nitrateMgL: 20 }, 'fine'],
    [{ nitrateMgL: 20.1 }, 'watch'],
    [{ nitrateMgL: 160 }, 'watch'],
    [{ tempC: 10 }, 'fine'],
    [{ tempC: 9.9 }, 'watch'],
    [{ tempC: 28 }, 'watch'],
    [{ tempC: 30 }, 'act'],
    [{ tempC: 4.9 }, 'act'],
    [{ ph: 6.4 }, 'watch'],
    [{ ph: 9.1 }, 'act'],
    [{ ghDgh: 5 }, 'watch'],
    [{ khDkh: 0 }, 'watch'],
    [{ tdsMgL: 900 }, 'fine'],
    [{ tdsMgL: 1100 }, 'watch'],
    [{ tdsMgL: 20 }, 'watch'],
  ])('%o is %s', (values, state) => {
    expect(judge(values).state).toBe(state);
  });

  it('calls TDS that drifted over a fifth from the usual watch', () => {
    const known = { ...unknown, usualTdsMgL: 240 };
    expect(judge({ tdsMgL: 288 }, known).state).toBe('fine');
    expect(judge({ tdsMgL: 289 }, known).state).toBe('watch');
    expect(judge({ tdsMgL: 191 }, known).state).toBe('watch');
  });

  it('puts ammonia beside the published criterion, where that is given', () => {
    // US EPA 1999, EPA-822-R-99-014: chronic criterion 1.71 mg N/L at pH 8 and 20 °C; 0.5 mg/L of NH4 holds 0.388 mg N.
    const [found] = judge({ ammoniaMgL: 0.5, ph: 8, tempC: 20 }).findings;
    expect(found?.of === 'ammonia' && found.criteria).toMatchObject({ over: 'neither' });
    expect(found?.of === 'ammonia' && found.criteria?.chronicMgNL).toBeCloseTo(1.71, 2);
    expect(found?.of === 'ammonia' && found.criteria?.timesChronic).toBeCloseTo(0.388 / 1.71, 2);
    for (const outside of [{ ph: 9.2 }, { ph: 6.2 }, { tempC: 31 }]) {
      const [other] = judge({ ammoniaMgL: 0.5, ph: 8, tempC: 20, ...outside }).findings.filter(
        ({ of }) => of === 'ammonia',
      );
      expect(other?.of === 'ammonia' && other.criteria).toBeNull();
    }
  });

  it('says how much oxygen water of that temperature holds, at the height of the place', () => {
    // EN 25814: 28 °C 7.83 mg/L at 101.325 kPa; at 1000 m the mean pressure is 671 mmHg.
    const oxygenAt = (altitudeM: number): number | undefined => {
      const { findings } = judgeReading({ ...noWaterValues, tempC: 28 }, unknown, { ...business, altitudeM });
      return findings[0]?.of === 'temperature' ? findings[0].oxygenMgL : undefined;
    };
    expect(oxygenAt(0)).toBeCloseTo(7.83, 2);
    expect(oxygenAt(1000)).toBeCloseTo((7.83 * 671) / 760, 1);
  });

  it('puts the worst first and is as bad as that', () => {
    const { state, findings } = judge({ nitrateMgL: 40, nitriteMgL: 1, tempC: 22, ph: 7.4 });
    expect(state).toBe('act');
    expect(findings.map(({ of, state: of_ }) => `${of} ${of_}`)).toEqual([
      'nitrite act',
      'nitrate watch',
      'temperature fine',
      'ph fine',
    ]);
  });

  it('is fine about a reading of nothing', () => {
    expect(judge({})).toEqual({ state: 'fine', findings: [] });
  });
});
