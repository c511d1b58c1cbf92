import { describe, expect, it } from 'vitest';
import { type AmountName, amount, firstImpossible } from '../../src/domain/index.ts';

describe('an amount', () => {
  it.each<[AmountName, number]>([
    ['animals', 1],
    ['animals', 5000],
    ['saleable', 0],
    ['litres', 0.1],
    ['percent', 100],
    ['price', 0],
    ['source-nitrate', 0],
    ['slack-days', 0],
  ])('%s can be %d', (name, typed) => {
    expect(amount(name, typed)).toEqual({ ok: true, value: typed });
  });

  it.each<[AmountName, number]>([
    ['animals', 0],
    ['animals', 10_000],
    ['animals', -3],
    ['animals', 1.5],
    ['saleable', 10_000],
    ['litres', 0],
    ['percent', 101],
    ['share', -1],
    ['source-nitrate', -5],
    ['net litres', 0.5],
    ['interval', 0],
    ['litres', Number.NaN],
    ['litres', Number.POSITIVE_INFINITY],
  ])('%s cannot be %d, and the refusal carries the bounds', (name, typed) => {
    const checked = amount(name, typed);
    expect(checked).toMatchObject({ ok: false, fault: { kind: 'impossible-amount', amount: name, typed } });
    if (checked.ok || checked.fault.kind !== 'impossible-amount') throw new Error('not refused');
    expect(checked.fault.min).toBeLessThan(checked.fault.max);
  });

  it('passes over what was not given and finds the first that cannot be', () => {
    expect(
      firstImpossible([
        ['litres', undefined],
        ['percent', null],
        ['animals', 5],
      ]),
    ).toBeNull();
    expect(
      firstImpossible([
        ['animals', 5],
        ['dead', -1],
        ['litres', -1],
      ]),
    ).toMatchObject({ amount: 'dead', typed: -1 });
  });
});
