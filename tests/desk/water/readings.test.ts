import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  addTubs,
  changePlans,
  logReading,
  logSheet,
  readingHistory,
  setBusiness,
  setLine,
} from '../../../src/desk/index.ts';
import type { Instant, Refusal, Result } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { rowCounts } from '../../support/rowCounts.ts';

let bench: TestDesk;
beforeEach(() => {
  bench = deskAt('2027-04-13T16:00:00Z');
  setLine(bench.desk, bench.by('wren'), { line: 'orange' });
  addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2', 'A3'], line: 'orange', litres: 25 });
});
afterEach(() => bench.close());

const log = (tub: string, values: Parameters<typeof logReading>[2]['values'], at?: string) =>
  logReading(bench.desk, bench.by('wren'), { tub, values, at: at as Instant | undefined });

/** The value of a result that must be one. */
function got<T>(result: Result<T, Refusal>): T {
  if (!result.ok) throw new Error(`refused: ${result.fault.kind}`);
  return result.value;
}

describe('a reading', () => {
  it('is logged and judged, with the change that follows', () => {
    const { verdict, plan, reading } = got(log('a1', { nitrateMgL: 40, tempC: 21.4 }));
    expect(verdict.state).toBe('watch');
    expect(plan).toMatchObject({ litres: 5, reason: 'steps', dueOn: '2027-04-13', everyDays: 3 });
    expect(reading).toMatchObject({ nitrateMgL: 40, tempC: 21.4, ph: null });
  });

  it.each<[string, Parameters<typeof logReading>[2]['values'], Partial<Refusal>]>([
    [
      '72 °C',
      { tempC: 72 },
      { kind: 'impossible-water', mended: [{ value: 22.2, how: 'fahrenheit' }] } as Partial<Refusal>,
    ],
    ['pH 74', { ph: 74 }, { kind: 'impossible-water', mended: [{ value: 7.4, how: 'decimal' }] } as Partial<Refusal>],
    ['one good value and a bad one', { nitrateMgL: 10, ghDgh: -1 }, { kind: 'impossible-water' }],
    ['no value', {}, { kind: 'nothing-given' }],
    ['not a number', { ph: Number.NaN }, { kind: 'impossible-water', mended: [] } as Partial<Refusal>],
  ])('of %s is refused and leaves nothing behind', (_, values, fault) => {
    const before = rowCounts(bench.folder);
    expect(log('A1', values)).toMatchObject({ ok: false, fault });
    expect(rowCounts(bench.folder)).toEqual(before);
  });

  it('names the last value that was possible', () => {
    log('A1', { tempC: 21.9 }, '2027-04-11T08:00:00.000Z');
    log('A1', { ph: 7 }, '2027-04-12T08:00:00.000Z');
    expect(log('A1', { tempC: 72 })).toMatchObject({
      fault: { last: { value: 21.9, at: '2027-04-11T08:00:00.000Z' } },
    });
  });

  it('may be of yesterday, not of tomorrow and not of the last century', () => {
    expect(log('A1', { ph: 7 }, '2027-04-12T08:00:00.000Z').ok).toBe(true);
    expect(log('A1', { ph: 7 }, '2027-04-13T16:04:00.000Z').ok).toBe(true);
    expect(log('A1', { ph: 7 }, '2027-04-13T16:06:00.000Z')).toMatchObject({ fault: { kind: 'in-the-future' } });
    expect(log('A1', { ph: 7 }, '1999-12-31T08:00:00.000Z')).toMatchObject({ fault: { kind: 'too-long-ago' } });
  });

  it('is taken in Fahrenheit by a business that says so, and kept in Celsius', () => {
    setBusiness(bench.desk, bench.by('wren'), { units: 'us' });
    expect(got(log('A1', { tempC: 70.7 })).reading.tempC).toBeCloseTo(21.5, 9);
    expect(log('A1', { tempC: 22 })).toMatchObject({ fault: { mended: [{ value: 22, how: 'celsius' }] } });
  });

  it("judges ammonia by the tub's pH and temperature of the last sixty days, not by those of others", () => {
    log('A1', { ph: 6.8, tempC: 18 }, '2027-04-01T08:00:00.000Z');
    log('A2', { ph: 6.8, tempC: 18 }, '2027-02-01T08:00:00.000Z');
    expect(got(log('A1', { ammoniaMgL: 1 })).verdict).toMatchObject({ state: 'watch', findings: [{ assumed: [] }] });
    expect(got(log('A2', { ammoniaMgL: 1 })).verdict).toMatchObject({ state: 'act' });
    expect(got(log('A3', { ammoniaMgL: 1 })).verdict.findings[0]).toMatchObject({ assumed: ['pH', 'temperature'] });
  });

  it('knows the usual TDS from three readings on', () => {
    for (const [day, tdsMgL] of [
      ['01', 240],
      ['02', 230],
    ] as const)
      log('A1', { tdsMgL }, `2027-04-${day}T08:00:00.000Z`);
    expect(got(log('A1', { tdsMgL: 400 }, '2027-04-03T08:00:00.000Z')).verdict.state).toBe('fine');
    expect(got(log('A1', { tdsMgL: 400 }, '2027-04-04T08:00:00.000Z')).verdict.state).toBe('watch');
  });

  it('with the key of one that was logged breaks and changes nothing', () => {
    const by = bench.by('wren');
    got(logReading(bench.desk, by, { tub: 'A1', values: { ph: 7 } }));
    const before = rowCounts(bench.folder);
    expect(() => logReading(bench.desk, by, { tub: 'A1', values: { ph: 8 } })).toThrow('UNIQUE');
    expect(rowCounts(bench.folder)).toEqual(before);
  });
});

describe('the change that is due', () => {
  const planOf = (name: string) => changePlans(bench.desk).find(({ tub }) => tub.name === name)?.plan;

  it('is spread over the first interval where nothing was logged', () => {
    expect(changePlans(bench.desk).map(({ tub, plan }) => [tub.name, plan.dueOn, plan.reason])).toEqual([
      ['A1', '2027-04-13', 'no-reading'],
      ['A2', '2027-04-14', 'no-reading'],
      ['A3', '2027-04-15', 'no-reading'],
    ]);
  });

  it('is due on the day of a reading over the limit where no change was ever logged', () => {
    log('A3', { nitrateMgL: 40 });
    expect(planOf('A3')).toMatchObject({ dueOn: '2027-04-13', litres: 5 });
    log('A2', { nitrateMgL: 10 });
    expect(planOf('A2')).toMatchObject({ dueOn: '2027-04-14', litres: 2 });
  });

  it('is at once and the most of the policy while ammonia or nitrite harms, until a change or a better reading', () => {
    log('A3', { nitriteMgL: 1 }, '2027-04-12T08:00:00.000Z');
    expect(planOf('A3')).toMatchObject({ dueOn: '2027-04-12', litres: 5, reason: 'urgent' });
    log('A3', { nitriteMgL: 0 });
    expect(planOf('A3')).toMatchObject({ dueOn: '2027-04-15', litres: 2, reason: 'no-reading' });
  });

  it('counts the changes since the reading', () => {
    log('A1', { nitrateMgL: 40 }, '2027-04-12T08:00:00.000Z');
    bench.desk.store.write(() => {
      const entry = bench.desk.store.entries.add(bench.by('wren'), 'change', 'A1 changed 5 L', bench.desk.now());
      const [tub] = bench.desk.store.tubs.tubs();
      bench.desk.store.water.addChange(entry, { tubId: tub?.id ?? 0, at: bench.desk.now(), litres: 5, note: null });
    });
    // 40 on the kit is 30 to 60; 5 of 20 L leave three quarters of what was over the source water's 5.
    const { nowMgL } = planOf('A1')?.nitrate ?? {};
    expect(nowMgL?.low).toBeGreaterThan(23.75);
    expect(nowMgL?.high).toBeLessThan(46.5);
    expect(planOf('A1')).toMatchObject({ reason: 'steps', dueOn: '2027-04-16' });
  });
});

describe('a sheet', () => {
  it('logs the good rows, each once, and refuses the others one by one', () => {
    const rows = [
      { tub: 'A1', values: { nitrateMgL: 10 } },
      { tub: 'A2', values: { ph: 74 } },
      { tub: 'B9', values: { ph: 7 } },
      { tub: 'A3', values: { ph: 7 } },
    ];
    const by = bench.by('wren');
    expect(logSheet(bench.desk, by, rows).map(({ result }) => result.ok)).toEqual([true, false, false, true]);
    expect(bench.desk.store.entries.ofInteraction(by.key)?.summary).toBe('A1 reading, NO3 10');
  });

  it('is logged whole or not at all', () => {
    const by = bench.by('wren');
    log('A3', { ph: 7 });
    const before = rowCounts(bench.folder);
    const rows = ['A1', 'A2'].map((tub) => ({ tub, values: { ph: 7 } }));
    const later = { ...by, key: `${by.key}#1` };
    got(logReading(bench.desk, later, { tub: 'A3', values: { ph: 7.1 } }));
    expect(() => logSheet(bench.desk, by, rows)).toThrow('UNIQUE');
    expect(bench.desk.store.entries.ofKey(by.key)).toBeUndefined();
    expect(rowCounts(bench.folder)).toMatchObject({ reading: (before['reading'] ?? 0) + 1 });
  });
});

describe('the history', () => {
  it('holds the readings of so many days, oldest first', () => {
    log('A1', { ph: 7 }, '2027-01-01T08:00:00.000Z');
    log('A1', { ph: 7.2 }, '2027-04-10T08:00:00.000Z');
    log('A1', { ph: 7.1 }, '2027-04-02T08:00:00.000Z');
    expect(got(readingHistory(bench.desk, 'A1', 30)).readings.map(({ ph }) => ph)).toEqual([7.1, 7.2]);
    expect(readingHistory(bench.desk, 'A1', 0)).toMatchObject({ fault: { kind: 'impossible-amount', amount: 'days' } });
  });
});
