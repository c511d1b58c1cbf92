import { describe, expect, it } from 'vitest';
import {
  estimateFrom,
  inferNitrate,
  type RisePrior,
  type TubEvent,
  widePrior,
  withRisePrior,
} from '../../../../src/domain/index.ts';
import { kitStepsMgL } from './worlds.ts';

const prior: RisePrior = { medianPerDay: 0.5, logSd: 0.4 };
const readings = (...values: number[]): TubEvent[] =>
  values.map((nitrateMgL, week) => ({ of: 'reading', day: week * 7, nitrateMgL }));

describe('beliefs with another prior', () => {
  // What is left out: that a reading which the new prior makes odd is not looked at again as a new start.
  it.each<[string, TubEvent[], number?]>([
    ['no reading', []],
    ['one reading', readings(10)],
    ['a month of them', readings(10, 10, 20, 20)],
    ['steep ones', readings(5, 20, 40), 0.4],
    ['none rising', readings(10, 10, 10, 10, 10, 10)],
  ])('after %s are nearly those inferred with it', (_, events, within = 0.2) => {
    const nowDay = (events.at(-1)?.day ?? 0) + 3;
    const wide = inferNitrate(events, nowDay, 5, kitStepsMgL, widePrior);
    const anew = inferNitrate(events, nowDay, 5, kitStepsMgL, prior);
    const reweighed = estimateFrom(withRisePrior(wide.beliefs, widePrior, prior), wide.readings);
    for (const of of ['nowMgL', 'risePerDay'] as const) {
      const range = anew[of].high - anew[of].low;
      for (const quantile of ['low', 'median', 'high'] as const) {
        expect(Math.abs(reweighed[of][quantile] - anew[of][quantile])).toBeLessThan(within * range);
      }
    }
    expect(reweighed.readings).toBe(anew.readings);
  });

  it('are the same with the same prior', () => {
    const { beliefs } = inferNitrate(readings(10, 20), 10, 5, kitStepsMgL, widePrior);
    for (const [index, { weight }] of withRisePrior(beliefs, widePrior, widePrior).entries()) {
      expect(weight).toBeCloseTo(beliefs[index]?.weight ?? 0, 12);
    }
  });
});
