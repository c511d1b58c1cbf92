import { describe, expect, it } from 'vitest';
import {
  advanced,
  breedersToHold,
  colonyAhead,
  effectiveSize,
  forecast,
  overDense,
  rangeOf,
  replay,
  type SalesAhead,
  saleableOf,
  sustainableWeekly,
  type TubNow,
  withOneMore,
} from '../../../../src/domain/index.ts';
import { dayAt, full, history, tubOf } from './tub.ts';

const today = dayAt(0);
const tubNow = (id: number, saleable: number, netLitres = 20): TubNow => {
  const tub = tubOf({ id, netLitres });
  const { colony } = replay(tub, history([0, full(saleable)]), null, today);
  if (colony === null) throw new Error('not counted');
  return { tub, colony };
};
const line = [tubNow(1, 60), tubNow(2, 80), tubNow(3, 40)];
const openAlways: SalesAhead = { promised: 0, holdBack: 10, isOpen: () => true };

describe('a forecast', () => {
  it('begins with today, goes by four weeks, and ends on the last step up to the day', () => {
    const days = forecast(line, today, dayAt(101), 0, openAlways);
    expect(days.map(({ day }) => day)).toEqual([0, 28, 56, 84, 100].map(dayAt));
    expect(days[0]?.saleable.median).toBeGreaterThan(175);
    expect(days[0]?.saleable.median).toBeLessThan(192);
    expect(days[0]?.allSent).toBe(1);
  });

  it('widens with time', () => {
    const widths = forecast(line, today, dayAt(168), 0, openAlways).map(({ saleable }) => saleable.high - saleable.low);
    for (const [month, width] of widths.entries()) expect(width).toBeGreaterThanOrEqual(widths[month - 1] ?? 0);
    expect(widths.at(-1)).toBeGreaterThan(4 * (widths[0] ?? 0));
  });

  it('comes near what the daily steps of a replay come to', () => {
    for (const now of line) {
      const daily = rangeOf(saleableOf(advanced(now.colony, now.tub, dayAt(120))));
      const ahead = rangeOf(colonyAhead(now, today, dayAt(120)));
      expect(Math.abs(ahead.median / daily.median - 1)).toBeLessThan(0.25);
      expect(Math.abs((ahead.high - ahead.low) / (daily.high - daily.low) - 1)).toBeLessThan(0.4);
    }
  });

  it('takes what is promised first, sells only while it is open, and tells when sales cannot be sent', () => {
    const promised = forecast(line, today, dayAt(28), 0, { ...openAlways, promised: 50 });
    const none = forecast(line, today, dayAt(28), 0, openAlways);
    expect((none[0]?.saleable.median ?? 0) - (promised[0]?.saleable.median ?? 0)).toBeCloseTo(50, -1);
    const shut = forecast(line, today, dayAt(28), 200, { ...openAlways, isOpen: () => false });
    expect(shut).toEqual(none);
    expect(forecast(line, today, dayAt(28), 200, openAlways).at(-1)?.allSent).toBe(0);
  });

  it('leaves the breeders of each tub, whatever is sold', () => {
    const sold = forecast(line, today, dayAt(28), 1000, openAlways).at(-1);
    expect(sold?.saleable.low).toBeGreaterThan(20);
    expect(sold?.spare.high).toBeLessThan(5);
  });

  it('lets 24 tubs stand for more of them', () => {
    const many = Array.from({ length: 30 }, (_, nth) => tubNow(100 + nth, 30 + nth));
    const sum = many.reduce((all, _, nth) => all + 30 + nth, 0) / 0.975;
    expect(Math.abs((forecast(many, today, dayAt(4), 0, openAlways)[0]?.saleable.median ?? 0) / sum - 1)).toBeLessThan(
      0.04,
    );
  });
});

describe('sustainable sales', () => {
  const goal = { on: dayAt(240), stock: 40 };
  const weekly = sustainableWeekly(line, today, goal, openAlways) ?? Number.NaN;

  it('reach the goal in nine of ten futures, and twice as many do not', () => {
    const reached = (sold: number): number | undefined =>
      forecast(line, today, goal.on, sold, openAlways).at(-1)?.spare.low;
    expect(weekly).toBeGreaterThan(1);
    expect(reached(weekly * 0.8)).toBeGreaterThanOrEqual(goal.stock - 5);
    expect(reached(weekly * 2)).toBeLessThan(goal.stock);
  });

  it('are more for a lower goal, for more tubs, and none where even that cannot be', () => {
    expect(sustainableWeekly(line, today, { ...goal, stock: 0 }, openAlways)).toBeGreaterThanOrEqual(weekly);
    expect(sustainableWeekly([...line, tubNow(4, 70)], today, goal, openAlways)).toBeGreaterThan(weekly);
    expect(sustainableWeekly(line, today, { ...goal, stock: 5000 }, openAlways)).toBeNull();
  });

  it('grow with one more tub, which takes no animal from the line but from its fullest tub', () => {
    const more = withOneMore(line, tubOf({ id: 9 }), 20);
    expect(more).toHaveLength(4);
    const members = (tubs: readonly TubNow[], member: number): number =>
      tubs.reduce((sum, { colony }) => sum + (saleableOf(colony)[member] ?? 0), 0);
    expect(members(more, 17)).toBeCloseTo(members(line, 17), 2);
    expect(saleableOf(more[3]?.colony ?? line[0]?.colony ?? { numbers: new Float32Array() })[17]).toBeCloseTo(20, 3);
    expect(more[0]).toBe(line[0]);
    const inAYear = { on: dayAt(364), stock: 40 };
    const [without, withMore] = [line, more].map((tubs) => sustainableWeekly(tubs, today, inAYear, openAlways) ?? 0);
    expect(withMore).toBeGreaterThanOrEqual(without ?? 0);
  });
});

describe('breeders', () => {
  it('count by their rarer sex', () => {
    expect(effectiveSize(25, 15)).toBe(37.5);
    expect(effectiveSize(20, 10)).toBeCloseTo(26.67, 2);
    expect(effectiveSize(10, 0)).toBe(0);
    expect(effectiveSize(0, 0)).toBe(0);
  });

  it('to hold before winter make up for its losses', () => {
    const { females, males, survival, femaleShare, effectiveNow } = breedersToHold(line, today, dayAt(150), 50);
    expect(survival).toBeGreaterThan(0.2);
    expect(survival).toBeLessThan(0.9);
    expect(effectiveSize(females * survival, males * survival)).toBeGreaterThanOrEqual(50);
    expect(effectiveSize(females * survival, males * survival)).toBeLessThan(54);
    expect(Math.abs(females / (females + males) - femaleShare)).toBeLessThan(0.02);
    expect(effectiveNow.low).toBeLessThan(effectiveNow.high);
    expect(breedersToHold(line, today, dayAt(30), 50).females).toBeLessThan(females);
  });
});

describe('a tub that fills', () => {
  it('is over-dense from a day on, early perhaps and later likely; one that is full already from today', () => {
    const { likely, earliest } = overDense(tubNow(1, 70), today, dayAt(364));
    expect(earliest).not.toBeNull();
    expect((earliest ?? '') <= (likely ?? '9999')).toBe(true);
    expect((earliest ?? '') > today).toBe(true);
    expect(overDense(tubNow(1, 150), today, dayAt(60))).toEqual({ likely: today, earliest: today });
    expect(overDense(tubNow(1, 10), today, dayAt(20))).toEqual({ likely: null, earliest: null });
  });
});
