import { describe, expect, it } from 'vitest';
import { type RoundStop, roundStops, stopFrom, stopKey } from '../../../src/domain/index.ts';

const stops = roundStops([
  { id: 1, rack: 'A' },
  { id: 2, rack: 'A' },
  { id: 5, rack: 'B' },
]);
const keys = stops.map(stopKey);
const from = (at: string | null, beyond: boolean, open: string[]): string | null => {
  const found = stopFrom(stops, at === null ? null : { at, beyond }, (stop: RoundStop) => open.includes(stopKey(stop)));
  return found === null ? null : stopKey(found);
};

describe('the stops of a round', () => {
  it('are each rack, then its tubs, and at the end what is about none', () => {
    expect(keys).toEqual(['r1', 't1', 't2', 'r5', 't5', 'b']);
    expect(roundStops([]).map(stopKey)).toEqual(['b']);
  });

  it('begin with the first that has open work', () => {
    expect(from(null, false, ['t2', 'b'])).toBe('t2');
    expect(from(null, false, [])).toBeNull();
  });

  it('go on from where one is: at it while it has open work, or beyond it', () => {
    expect(from('t1', false, ['t1', 't2'])).toBe('t1');
    expect(from('t1', true, ['t1', 't2'])).toBe('t2');
    expect(from('t1', false, ['r1', 'r5'])).toBe('r5');
    expect(from('b', true, ['r1'])).toBeNull();
  });

  it('begin anew from a stop that is gone', () => {
    expect(from('t99', true, ['r1', 't5'])).toBe('r1');
  });
});
