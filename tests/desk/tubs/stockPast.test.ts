import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { logCount, logLoss, logMove, retireTub, stock, stockPast, stockWeeks, undo } from '../../../src/desk/index.ts';
import type { Instant, Line } from '../../../src/domain/index.ts';
import { sellingDeskAt, taken } from '../../support/sellingDesk.ts';

type Bench = ReturnType<typeof sellingDeskAt>;
const open: Bench[] = [];
afterEach(() => {
  for (const bench of open.splice(0)) bench.close();
});

function shop(): Bench & { line: (name: string) => Line } {
  const bench = sellingDeskAt('2027-01-10T16:00:00Z');
  open.push(bench);
  const line = (name: string): Line => {
    const found = bench.desk.store.tubs.lines().find((known) => known.name === name);
    if (found === undefined) throw new Error(`no line ${name}`);
    return found;
  };
  return { ...bench, line };
}

/** Sends an animal parcel out of A1 without asking anybody. */
function send({ desk, by, line }: ReturnType<typeof shop>, number: number): void {
  const entry = desk.store.entries.add(by('wren'), 'parcel', 'sent', desk.now());
  const tub = desk.store.tubs.tubs().find(({ name }) => name === 'A1');
  const catches = [{ tubId: tub?.id ?? 0, lineId: line('jade').id, number }];
  const sale = desk.store.sales.all()[0];
  desk.store.parcels.addParcel(entry, { saleId: sale?.id ?? 0, tracking: null, at: desk.now(), catches });
}

const saleableToday = ({ desk }: Bench, name: string): number | undefined => {
  const found = stock(desk, name);
  return found.ok ? found.value[0]?.saleable : undefined;
};

describe('stock in the past', () => {
  it('is not known before the first count, and then the last count with what came after it', () => {
    const test = shop();
    const jade = test.line('jade');
    const counted = test.desk.now();
    expect(stockPast(test.desk, jade, '2027-01-10T15:59:00.000Z' as Instant)).toBeNull();
    expect(stockPast(test.desk, jade, counted)).toBe(100);
    test.advance({ days: 7 });
    taken(logLoss(test.desk, test.by('wren'), { tub: 'A1', number: 6 }));
    taken(logMove(test.desk, test.by('wren'), { from: 'A2', to: 'A1', number: 5, stage: 'saleable' }));
    test.sell(10);
    send(test, 11);
    const sent = test.desk.now();
    test.advance({ days: 7 });
    taken(logCount(test.desk, test.by('wren'), { tub: 'A1', saleable: 80, method: 'full' }));
    expect(stockPast(test.desk, jade, counted)).toBe(100);
    expect(stockPast(test.desk, jade, sent)).toBe(83);
    expect(stockPast(test.desk, jade, test.desk.now())).toBe(115);
  });

  it('has a tub until it is retired, and counts what was logged late', () => {
    const test = shop();
    const before = test.desk.now();
    test.advance({ days: 3 });
    taken(logCount(test.desk, test.by('wren'), { tub: 'A2', saleable: 0, method: 'full' }));
    taken(retireTub(test.desk, test.by('wren'), 'A2', 'leaks'));
    expect(stockPast(test.desk, test.line('jade'), before)).toBe(100);
    expect(stockPast(test.desk, test.line('jade'), test.desk.now())).toBe(60);
    const loss = taken(logLoss(test.desk, test.by('wren'), { tub: 'A1', number: 4, at: before }));
    expect(stockPast(test.desk, test.line('jade'), before)).toBe(96);
    taken(undo(test.desk, test.by('wren'), true, loss.entryId));
    expect(stockPast(test.desk, test.line('jade'), before)).toBe(100);
  });

  it('is at every moment what the stock then was', () => {
    const tub = fc.constantFrom('A1', 'A2');
    const step = fc.oneof(
      fc.record({ do: fc.constant('count' as const), tub, number: fc.nat(90) }),
      fc.record({ do: fc.constant('loss' as const), tub, number: fc.integer({ min: 1, max: 5 }) }),
      fc.record({ do: fc.constant('move' as const), tub, number: fc.integer({ min: 1, max: 5 }) }),
      fc.record({ do: fc.constant('send' as const), tub, number: fc.integer({ min: 1, max: 5 }) }),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 20 }), (steps) => {
        const test = shop();
        const { desk, by } = test;
        test.sell(1);
        const seen: [Instant, number | undefined][] = [];
        for (const now of steps) {
          test.advance({ hours: 9 });
          if (now.do === 'count')
            taken(logCount(desk, by('wren'), { tub: now.tub, saleable: now.number, method: 'full' }));
          else if (now.do === 'loss') logLoss(desk, by('wren'), { tub: now.tub, number: now.number });
          else if (now.do === 'send') send(test, now.number);
          else {
            const to = now.tub === 'A1' ? 'A2' : 'A1';
            logMove(desk, by('wren'), { from: now.tub, to, number: now.number, stage: 'saleable' });
          }
          seen.push([desk.now(), saleableToday(test, 'jade')]);
        }
        for (const [at, saleable] of seen) expect(stockPast(desk, test.line('jade'), at)).toBe(saleable);
      }),
      { numRuns: 20, seed: 20270413 },
    );
  });
});

describe('the weeks of the stock', () => {
  it('are the same weekday of twelve weeks and today, through a change of the clocks, from the first count on', () => {
    const test = shop();
    test.advance({ days: 91 });
    taken(logLoss(test.desk, test.by('wren'), { tub: 'B1', number: 7 }));
    const [jade, snow] = stockWeeks(test.desk);
    expect(jade?.weeks.map(({ saleable }) => saleable)).toEqual(Array(13).fill(100));
    expect(jade?.weeks.map(({ day }) => day).slice(-3)).toEqual(['2027-03-28', '2027-04-04', '2027-04-11']);
    expect(snow?.weeks.map(({ saleable }) => saleable)).toEqual([...Array(12).fill(40), 33]);
  });

  it('begin with the first count', () => {
    const test = shop();
    test.advance({ days: 15 });
    expect(stockWeeks(test.desk)[0]?.weeks.map(({ day }) => day)).toEqual(['2027-01-11', '2027-01-18', '2027-01-25']);
  });
});
