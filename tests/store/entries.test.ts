import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { By, Instant } from '../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../support/desk.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T08:00:00Z');
});
afterEach(() => bench.close());

const at = '2027-04-13T08:00:00.000Z' as Instant;
const wren = (key: string): By => ({ userId: 'user-wren', name: 'wren', key });
const alder = (key: string): By => ({ userId: 'user-alder', name: 'alder', key });

describe('entries', () => {
  it('take a key once', () => {
    const { entries } = bench.desk.store;
    entries.add(wren('k1'), 'loss', 'A1 2 found dead', at);
    expect(() => entries.add(alder('k1'), 'loss', 'A1 3 found dead', at)).toThrow(
      'UNIQUE constraint failed: entry.key',
    );
    expect(entries.latest(20).map(({ summary }) => summary)).toEqual(['A1 2 found dead']);
  });

  it('are found by their key, and by the interaction of a numbered one, but not by the beginning of another', () => {
    const { entries } = bench.desk.store;
    const id = entries.add(wren('123#1'), 'reading', 'A1 reading', at);
    expect(entries.ofInteraction('123')?.id).toBe(id);
    expect(entries.ofInteraction('12')).toBeUndefined();
    expect(entries.ofKey('123')).toBeUndefined();
    expect(entries.ofKey('123#1')?.id).toBe(id);
  });

  it('once voided, stay, and count no more among the latest', () => {
    const { entries } = bench.desk.store;
    const first = entries.add(wren('k1'), 'loss', 'first', at);
    const second = entries.add(wren('k2'), 'loss', 'second', at);
    entries.add(alder('k3'), 'loss', 'third', at);
    entries.void(second, alder('k4'), at);
    expect(entries.latest(20).map(({ summary }) => summary)).toEqual(['third', 'first']);
    expect(entries.latestOf('user-wren')?.id).toBe(first);
    expect(entries.get(second)).toMatchObject({ summary: 'second', voided: { at, by: 'alder' } });
  });

  it('are voided once: the first who did it stays named', () => {
    const { entries } = bench.desk.store;
    const id = entries.add(wren('k1'), 'loss', 'first', at);
    entries.void(id, alder('k2'), at);
    entries.void(id, wren('k3'), '2027-04-14T08:00:00.000Z' as Instant);
    expect(entries.get(id)?.voided).toEqual({ at, by: 'alder' });
  });

  it('roll back with the facts when the work throws', () => {
    const { store } = bench.desk;
    const work = () =>
      store.write(() => {
        store.entries.add(wren('k1'), 'loss', 'first', at);
        throw new Error('power cut');
      });
    expect(work).toThrow('power cut');
    expect(store.entries.latest(20)).toEqual([]);
  });
});
