import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wilsonInterval } from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270303 });

const rows = readFileSync(new URL('../../published/wilsonIntervals.csv', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^\d/.test(line))
  .map((line) => line.split(',').map(Number) as [number, number, number, number, number]);

describe("Wilson's interval", () => {
  // FSA binCI to the seven decimals printed, Newcombe 1998 to four; sources in the file.
  it.each(rows)('is the published one: %d of %d', (successes, trials, low, high, decimals) => {
    const found = wilsonInterval(successes, trials);
    expect(found.low.toFixed(decimals)).toBe(low.toFixed(decimals));
    expect(found.high.toFixed(decimals)).toBe(high.toFixed(decimals));
  });

  it('reads every row of the file', () => {
    expect(rows).toHaveLength(6);
  });

  it('knows nothing from nothing', () => {
    expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 });
  });

  it('is honest about 38 of 38: true survival could be as low as 91 %', () => {
    expect(wilsonInterval(38, 38).low).toBeCloseTo(0.908, 3);
    expect(wilsonInterval(38, 38).high).toBe(1);
  });

  it('holds what was seen, and mirrors when dead and alive change places', () => {
    const cases = fc
      .integer({ min: 1, max: 2000 })
      .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));
    fc.assert(
      fc.property(cases, ([x, n]) => {
        const [one, other] = [wilsonInterval(x, n), wilsonInterval(n - x, n)];
        expect(one.low).toBeLessThanOrEqual(x / n);
        expect(one.high).toBeGreaterThanOrEqual(x / n);
        expect(one.low).toBeCloseTo(1 - other.high, 12);
      }),
    );
  });
});
