import { afterEach, describe, expect, it } from 'vitest';
import { logCount, logLoss, retireTub, stock, stockWeeks, undo } from '../../../src/desk/index.ts';
import type { StockWeeks } from '../../../src/desk/tubs/stockPast.ts';
import { daysBetween } from '../../../src/domain/index.ts';
import { sellingDeskAt, taken } from '../../support/sellingDesk.ts';

type Bench = ReturnType<typeof sellingDeskAt>;
const open: Bench[] = [];
afterEach(() => {
  for (const bench of open.splice(0)) bench.close();
});

function shop(): Bench {
  const bench = sellingDeskAt('2027-01-10T16:00:00Z');
  open.push(bench);
  return bench;
}

const weeksOf = ({ desk }: Bench, line: string): StockWeeks['weeks'] =>
  stockWeeks(desk).find((own) => own.line.name === line)?.weeks ?? [];

describe('the weeks of the stock', () => {
  it('are ten weeks a week apart and today, through a change of the clocks', () => {
    const test = shop();
    for (let week = 0; week < 13; week += 1) {
      test.advance({ days: 7 });
      stockWeeks(test.desk);
    }
    const days = weeksOf(test, 'jade').map(({ day }) => day);
    expect(days).toHaveLength(11);
    expect(days.at(-1)).toBe('2027-04-11');
    const gaps = days.slice(1, -1).map((day, index) => daysBetween(days[index] ?? day, day));
    expect(new Set(gaps)).toEqual(new Set([7]));
    expect(days).toEqual([...days].sort());
  });

  it('begin with the first count, and end with what is believed today', () => {
    const test = shop();
    test.advance({ days: 15 });
    const weeks = weeksOf(test, 'jade');
    expect(weeks[0]?.day.localeCompare('2027-01-10')).toBeGreaterThanOrEqual(0);
    expect(weeks.length).toBeGreaterThanOrEqual(2);
    const [now] = taken(stock(test.desk, 'jade'));
    expect(weeks.at(-1)).toEqual({ day: '2027-01-25', saleable: now?.saleable.median });
  });

  it('are told by what is known now: a loss logged late lowers the weeks since, and undone puts them back', () => {
    const test = shop();
    test.advance({ days: 30 });
    const before = weeksOf(test, 'jade');
    const at = '2027-01-12T12:00:00.000Z' as never;
    const loss = taken(logLoss(test.desk, test.by('wren'), { tub: 'A1', number: 30, at }));
    const late = weeksOf(test, 'jade');
    expect(late.map(({ day }) => day)).toEqual(before.map(({ day }) => day));
    late.forEach(({ saleable }, week) => {
      expect(saleable).toBeLessThan((before[week]?.saleable ?? 0) - 10);
    });
    taken(undo(test.desk, test.by('wren'), true, loss.entryId));
    expect(weeksOf(test, 'jade')).toEqual(before);
  });

  it('have a tub until it is retired', () => {
    const test = shop();
    test.advance({ days: 20 });
    const before = weeksOf(test, 'jade');
    taken(logCount(test.desk, test.by('wren'), { tub: 'A2', saleable: 0, method: 'full' }));
    taken(retireTub(test.desk, test.by('wren'), 'A2', 'leaks'));
    test.advance({ days: 1 });
    const after = weeksOf(test, 'jade');
    expect(after.slice(0, 2)).toEqual(before.slice(0, 2));
    expect(after.at(-1)?.saleable).toBeLessThan((before.at(-1)?.saleable ?? 0) - 20);
  });
});
