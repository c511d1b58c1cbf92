import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { addTubs, freeOf, logCount, logLoss, logMove, setLine, stock, undo } from '../../../src/desk/index.ts';
import { day, type Line, type Tub } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { taken } from '../../support/sellingDesk.ts';

fc.configureGlobal({ seed: 20270413 });

const open: TestDesk[] = [];
afterEach(() => {
  for (const bench of open.splice(0)) bench.close();
});

const holdBack = 10;

function rack(): TestDesk & { line: Line; tubs: Tub[] } {
  const bench = deskAt('2027-04-13T16:00:00Z');
  open.push(bench);
  setLine(bench.desk, bench.by('wren'), { line: 'orange', holdBack });
  addTubs(bench.desk, bench.by('wren'), { names: ['A1', 'A2', 'A3'], line: 'orange', litres: 25 });
  const [line] = bench.desk.store.tubs.lines();
  if (line === undefined) throw new Error('no line');
  return { ...bench, line, tubs: bench.desk.store.tubs.tubs() };
}

/** Books a sale of so many animals with extras, kept until a moment far off; its number. */
function promise({ desk, by, line }: ReturnType<typeof rack>, number: number, extras: number) {
  const entryId = desk.store.entries.add(by('wren'), 'sale', `${number} orange`, desk.now());
  const sale = {
    buyerId: null,
    area: null,
    region: null,
    dispatchOn: null,
    priceMinor: null,
    postageMinor: 0,
    outletId: null,
    keptUntil: '2099-01-01T00:00:00.000Z' as never,
    cancelled: null,
    items: [{ of: 'line' as const, id: line.id, number, extras, priceMinor: null }],
  };
  return { entryId, saleId: desk.store.sales.add(entryId, sale, desk.now()) };
}

/** Sends a sale's parcel, caught from one tub. */
function send({ desk, by, line }: ReturnType<typeof rack>, saleId: number, tubId: number, number: number): number {
  const entryId = desk.store.entries.add(by('wren'), 'parcel', `sale ${saleId} sent`, desk.now());
  const catches = [{ tubId, lineId: line.id, number }];
  desk.store.parcels.addParcel(entryId, { saleId, tracking: null, at: desk.now(), catches });
  return entryId;
}

const full = ({ desk, by }: TestDesk, tub: string, saleable: number) =>
  taken(logCount(desk, by('wren'), { tub, saleable, method: 'full' }));

describe('stock', () => {
  it('is not counted yet, which is not none', () => {
    const bench = rack();
    expect(stock(bench.desk, 'orange')).toMatchObject({
      value: [{ free: 0, saleable: { median: 0 }, uncounted: ['A1', 'A2', 'A3'], tubs: [{ saleable: null }, {}, {}] }],
    });
  });

  it('after a full count is about what was counted, in a narrow range, and narrower after a second one', () => {
    const bench = rack();
    full(bench, 'A1', 40);
    const [first] = taken(stock(bench.desk, 'orange'));
    expect(first?.saleable.median).toBeGreaterThanOrEqual(38);
    expect(first?.saleable.median).toBeLessThanOrEqual(43);
    expect(first?.free).toBeGreaterThanOrEqual(22);
    expect(first?.free).toBeLessThanOrEqual(30);
    bench.advance({ days: 7 });
    full(bench, 'A1', 41);
    const [second] = taken(stock(bench.desk, 'orange'));
    const width = (range = { low: 0, high: 0 }): number => range.high - range.low;
    expect(width(second?.saleable)).toBeLessThanOrEqual(width(first?.saleable));
  });

  it('grows wider with time since the last count', () => {
    const bench = rack();
    full(bench, 'A1', 40);
    const widths = [0, 14, 60, 120].map((days) => {
      const later = rack();
      full(later, 'A1', 40);
      later.advance({ days });
      const [of] = taken(stock(later.desk, 'orange'));
      return (of?.saleable.high ?? 0) - (of?.saleable.low ?? 0);
    });
    expect(widths).toEqual([...widths].sort((a, b) => a - b));
    expect(widths.at(-1)).toBeGreaterThan(3 * (widths[0] ?? 0));
  });

  it('believes a glance less than a full count, and never promises more than was seen', () => {
    const [glance, inFull] = (['glance', 'full'] as const).map((method) => {
      const bench = rack();
      taken(logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: 40, method }));
      return taken(stock(bench.desk, 'orange'))[0];
    });
    const width = (of: typeof glance): number => (of?.saleable.high ?? 0) - (of?.saleable.low ?? 0);
    expect(width(glance)).toBeGreaterThan(2 * width(inFull));
    expect(glance?.free).toBeLessThanOrEqual(30);
  });

  it('of a day ahead counts on the holds that then still run', () => {
    const bench = rack();
    full(bench, 'A1', 40);
    const [tub] = bench.tubs;
    const entry = bench.desk.store.entries.add(bench.by('wren'), 'hold', 'A1 off sale', bench.desk.now());
    const until = day('2027-04-20');
    bench.desk.store.animals.addHold(
      entry,
      { tubId: tub?.id ?? 0, at: bench.desk.now(), reason: 'medicine', until },
      false,
    );
    const freeOn = (on?: string) => taken(stock(bench.desk, 'orange', on === undefined ? undefined : day(on)))[0]?.free;
    expect([freeOn(), freeOn('2027-04-20')]).toEqual([0, 0]);
    expect(freeOn('2027-04-21')).toBeGreaterThan(20);
  });

  it('falls with a parcel once: the promise ends when the animals leave', () => {
    const bench = rack();
    full(bench, 'A1', 60);
    const before = freeOf(bench.desk, bench.line.id);
    const { saleId } = promise(bench, 20, 4);
    const promised = freeOf(bench.desk, bench.line.id);
    expect(promised).toBe(before - 24);
    send(bench, saleId, bench.tubs[0]?.id ?? 0, 24);
    expect(Math.abs(freeOf(bench.desk, bench.line.id) - promised)).toBeLessThanOrEqual(2);
    const [after] = taken(stock(bench.desk, 'orange'));
    expect(after?.promised).toBe(0);
    expect(after?.saleable.median).toBeGreaterThanOrEqual(33);
    expect(after?.saleable.median).toBeLessThanOrEqual(39);
  });

  it('says by how much too much is promised', () => {
    const bench = rack();
    full(bench, 'A1', 40);
    promise(bench, 28, 2);
    taken(logLoss(bench.desk, bench.by('wren'), { tub: 'A1', number: 12 }));
    const free = freeOf(bench.desk, bench.line.id);
    expect(free).toBeLessThanOrEqual(-12);
    expect(free).toBeGreaterThan(-22);
  });

  it('knows no line that is not there', () => {
    const bench = rack();
    expect(stock(bench.desk, 'oragne')).toMatchObject({ fault: { kind: 'unknown', noun: 'line', near: ['orange'] } });
    expect(freeOf(bench.desk, 99)).toBe(0);
  });
});

type Step =
  | {
      readonly do: 'count';
      readonly tub: number;
      readonly number: number;
      readonly method: 'full' | 'dish' | 'glance';
    }
  | { readonly do: 'loss'; readonly tub: number; readonly number: number }
  | { readonly do: 'move'; readonly tub: number; readonly to: number; readonly number: number; readonly young: boolean }
  | { readonly do: 'promise'; readonly number: number; readonly extras: number }
  | { readonly do: 'send'; readonly which: number; readonly tub: number; readonly number: number };

/** Facts in the order of logging, each with what undoes it; the same on every desk. */
function play(bench: ReturnType<typeof rack>, steps: readonly Step[], sales: number[] = []): number[] {
  const { desk, by, tubs } = bench;
  const nameOf = (n: number): string => tubs[n]?.name ?? '';
  const entryOf = (now: Step): number[] => {
    const wren = by('wren');
    switch (now.do) {
      case 'count': {
        const done = logCount(desk, wren, { tub: nameOf(now.tub), saleable: now.number, method: now.method });
        return done.ok ? [done.value.entryId] : [];
      }
      case 'loss': {
        const done = logLoss(desk, wren, { tub: nameOf(now.tub), number: now.number });
        return done.ok ? [done.value.entryId] : [];
      }
      case 'move': {
        const stage = now.young ? 'juvenile' : 'saleable';
        const done = logMove(desk, wren, { from: nameOf(now.tub), to: nameOf(now.to), number: now.number, stage });
        return done.ok ? [done.value.entryId] : [];
      }
      case 'promise': {
        const { entryId, saleId } = promise(bench, now.number, now.extras);
        sales.push(saleId);
        return [entryId];
      }
      case 'send': {
        const sale = sales[now.which];
        return sale === undefined ? [] : [send(bench, sale, tubs[now.tub]?.id ?? 0, now.number)];
      }
    }
  };
  return steps.flatMap((now) => {
    bench.advance({ hours: 7 });
    return entryOf(now);
  });
}

describe('the stock over any history', () => {
  const tub = fc.integer({ min: 0, max: 2 });
  const number = fc.integer({ min: 1, max: 40 });
  const method = fc.constantFrom('full' as const, 'dish' as const, 'glance' as const);
  const step: fc.Arbitrary<Step> = fc.oneof(
    fc.record({ do: fc.constant('count' as const), tub, number: fc.integer({ min: 0, max: 90 }), method }),
    fc.record({ do: fc.constant('loss' as const), tub, number: fc.integer({ min: 1, max: 5 }) }),
    fc.record({ do: fc.constant('move' as const), tub, to: tub, number, young: fc.boolean() }),
    fc.record({ do: fc.constant('promise' as const), number, extras: fc.nat(3) }),
    fc.record({ do: fc.constant('send' as const), which: fc.nat(9), tub, number }),
  );
  const stocks = (bench: ReturnType<typeof rack>) => taken(stock(bench.desk, 'orange'));

  it('is the same whether it was asked for after each fact or at the end, from kept snapshots or from the facts alone', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 16 }), (steps) => {
        const [asked, late] = [rack(), rack()];
        const sales: number[] = [];
        for (const one of steps) {
          play(asked, [one], sales);
          stocks(asked);
        }
        play(late, steps);
        expect(stocks(asked)).toEqual(stocks(late));
        asked.desk.store.colonies.clear();
        asked.advance({ days: 1 });
        late.advance({ days: 1 });
        expect(stocks(asked)).toEqual(stocks(late));
        for (const bench of open.splice(0)) bench.close();
      }),
      { numRuns: 15 },
    );
  });

  it('is after an undo as if the fact had never been', () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 14 }), fc.nat(13), (steps, which) => {
        const bench = rack();
        const entries = play(bench, steps);
        const before = stocks(bench);
        const extra = taken(logCount(bench.desk, bench.by('wren'), { tub: 'A2', saleable: 33, method: 'full' }));
        expect(stocks(bench)).not.toEqual(before);
        taken(undo(bench.desk, bench.by('wren'), true, extra.entryId));
        expect(stocks(bench)).toEqual(before);
        const entry = entries[which % Math.max(1, entries.length)];
        if (entry !== undefined && undo(bench.desk, bench.by('wren'), true, entry).ok) {
          const undone = stocks(bench);
          bench.desk.store.colonies.clear();
          bench.advance({ days: 1 });
          const again = stocks(bench);
          expect(again.map(({ uncounted }) => uncounted)).toEqual(undone.map(({ uncounted }) => uncounted));
        }
        for (const one of open.splice(0)) one.close();
      }),
      { numRuns: 15 },
    );
  });
});
