import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { addTubs, freeOf, logCount, logLoss, logMove, setLine, stock, undo } from '../../../src/desk/index.ts';
import { day, type Line, type Tub } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';

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

describe('stock', () => {
  it('is not counted yet, which is not none', () => {
    const bench = rack();
    expect(stock(bench.desk, 'orange')).toMatchObject({
      value: [{ free: 0, saleable: 0, uncounted: ['A1', 'A2', 'A3'], tubs: [{ saleable: null }, {}, {}] }],
    });
  });

  it('of a day ahead counts on the holds that then still run', () => {
    const bench = rack();
    logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: 40 });
    const [tub] = bench.tubs;
    const entry = bench.desk.store.entries.add(bench.by('wren'), 'hold', 'A1 off sale', bench.desk.now());
    const until = day('2027-04-20');
    bench.desk.store.animals.addHold(
      entry,
      { tubId: tub?.id ?? 0, at: bench.desk.now(), reason: 'medicine', until },
      false,
    );
    const freeOn = (on?: string) => {
      const found = stock(bench.desk, 'orange', on === undefined ? undefined : day(on));
      return found.ok ? found.value[0]?.free : undefined;
    };
    expect([freeOn(), freeOn('2027-04-20'), freeOn('2027-04-21')]).toEqual([0, 0, 30]);
  });

  it('falls with a parcel once: the promise ends when the animals leave', () => {
    const bench = rack();
    logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: 40 });
    const { saleId } = promise(bench, 20, 4);
    expect(freeOf(bench.desk, bench.line.id)).toBe(6);
    send(bench, saleId, bench.tubs[0]?.id ?? 0, 24);
    expect(freeOf(bench.desk, bench.line.id)).toBe(6);
    expect(stock(bench.desk, 'orange')).toMatchObject({ value: [{ saleable: 16, promised: 0 }] });
  });

  it('says by how much too much is promised', () => {
    const bench = rack();
    logCount(bench.desk, bench.by('wren'), { tub: 'A1', saleable: 40 });
    promise(bench, 28, 2);
    logLoss(bench.desk, bench.by('wren'), { tub: 'A1', number: 12 });
    expect(freeOf(bench.desk, bench.line.id)).toBe(-12);
  });

  it('knows no line that is not there', () => {
    const bench = rack();
    expect(stock(bench.desk, 'oragne')).toMatchObject({ fault: { kind: 'unknown', noun: 'line', near: ['orange'] } });
    expect(freeOf(bench.desk, 99)).toBe(0);
  });
});

type Step =
  | { readonly do: 'count'; readonly tub: number; readonly number: number }
  | { readonly do: 'loss'; readonly tub: number; readonly number: number }
  | { readonly do: 'move'; readonly tub: number; readonly to: number; readonly number: number; readonly young: boolean }
  | { readonly do: 'promise'; readonly number: number; readonly extras: number }
  | { readonly do: 'send'; readonly which: number; readonly tub: number; readonly number: number }
  | { readonly do: 'undo'; readonly which: number };

/** What one step did, as the ledger of the test keeps it. */
type Booked =
  | { readonly of: 'count'; readonly tub: number; readonly number: number }
  | { readonly of: 'change'; readonly deltas: readonly (readonly [tub: number, by: number])[]; readonly sale?: number }
  | { readonly of: 'promise'; readonly sale: number; readonly number: number };

describe('free to promise over any history', () => {
  const tub = fc.integer({ min: 0, max: 2 });
  const number = fc.integer({ min: 1, max: 40 });
  const step: fc.Arbitrary<Step> = fc.oneof(
    fc.record({ do: fc.constant('count' as const), tub, number: fc.integer({ min: 0, max: 90 }) }),
    fc.record({ do: fc.constant('loss' as const), tub, number: fc.integer({ min: 1, max: 5 }) }),
    fc.record({ do: fc.constant('move' as const), tub, to: tub, number, young: fc.boolean() }),
    fc.record({ do: fc.constant('promise' as const), number, extras: fc.nat(3) }),
    fc.record({ do: fc.constant('send' as const), which: fc.nat(9), tub, number }),
    fc.record({ do: fc.constant('undo' as const), which: fc.nat(20) }),
  );

  it('is Σ max(0, saleable − held back) − promised by a ledger kept by hand', () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
        const bench = rack();
        const { desk, by, tubs } = bench;
        const nameOf = (n: number): string => tubs[n]?.name ?? '';
        const ledger = new Map<number, Booked>();
        const sales: number[] = [];
        for (const now of steps) {
          bench.advance({ minutes: 1 });
          const wren = by('wren');
          if (now.do === 'count') {
            const done = logCount(desk, wren, { tub: nameOf(now.tub), saleable: now.number });
            if (done.ok) ledger.set(done.value.entryId, { of: 'count', tub: now.tub, number: now.number });
          } else if (now.do === 'loss') {
            const done = logLoss(desk, wren, { tub: nameOf(now.tub), number: now.number });
            if (done.ok) ledger.set(done.value.entryId, { of: 'change', deltas: [[now.tub, -now.number]] });
          } else if (now.do === 'move') {
            const stage = now.young ? 'juvenile' : 'saleable';
            const done = logMove(desk, wren, { from: nameOf(now.tub), to: nameOf(now.to), number: now.number, stage });
            const deltas = now.young
              ? []
              : ([
                  [now.tub, -now.number],
                  [now.to, now.number],
                ] as const);
            if (done.ok) ledger.set(done.value.entryId, { of: 'change', deltas });
          } else if (now.do === 'promise') {
            const { entryId, saleId } = promise(bench, now.number, now.extras);
            sales.push(saleId);
            ledger.set(entryId, { of: 'promise', sale: saleId, number: now.number + now.extras });
          } else if (now.do === 'send') {
            const sale = sales[now.which];
            if (sale === undefined) continue;
            const entryId = send(bench, sale, tubs[now.tub]?.id ?? 0, now.number);
            ledger.set(entryId, { of: 'change', deltas: [[now.tub, -now.number]], sale });
          } else {
            const entryId = [...ledger.keys()].at(-1 - now.which);
            if (entryId !== undefined && undo(desk, wren, true, entryId).ok) ledger.delete(entryId);
          }
        }
        expect(freeOf(desk, bench.line.id)).toBe(freeByHand([...ledger.values()]));
        bench.close();
        open.pop();
      }),
      { numRuns: 25 },
    );
  });

  /** The same sum kept the slow way: entries in the order in which they were made. */
  function freeByHand(lines: readonly Booked[]): number {
    const spare = [0, 1, 2].map((own) => {
      const from = lines.findLastIndex((line) => line.of === 'count' && line.tub === own);
      const counted = lines[from];
      if (counted?.of !== 'count') return 0;
      const deltas = lines.slice(from).flatMap((line) => (line.of === 'change' ? line.deltas : []));
      const change = deltas.filter(([at]) => at === own).reduce((sum, [, by]) => sum + by, 0);
      return Math.max(0, Math.max(0, counted.number + change) - holdBack);
    });
    const sent = new Set(lines.flatMap((line) => (line.of === 'change' && line.sale !== undefined ? [line.sale] : [])));
    const promised = lines.reduce(
      (sum, line) => sum + (line.of === 'promise' && !sent.has(line.sale) ? line.number : 0),
      0,
    );
    return spare.reduce((sum, n) => sum + n, 0) - promised;
  }
});
