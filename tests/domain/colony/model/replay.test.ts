import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { traits } from '../../../../src/domain/colony/model/traits.ts';
import {
  advanced,
  type Colony,
  type ColonyEvent,
  decodeColony,
  encodeColony,
  isKept,
  observed,
  rangeOf,
  replay,
  saleableOf,
} from '../../../../src/domain/index.ts';
import { dayAt, dish, eventAt, full, glance, history, sent, start, tubOf } from './tub.ts';

const tub = tubOf();
const lastDay = 60;

const number = fc.integer({ min: 0, max: 60 });
const act = fc.oneof(
  number.map(full),
  number.map(dish),
  number.map(glance),
  fc.record({ of: fc.constantFrom('sent' as const, 'loss' as const), number: fc.integer({ min: 1, max: 40 }) }),
  fc.record({
    of: fc.constantFrom('moveIn' as const, 'moveOut' as const),
    number: fc.integer({ min: 1, max: 30 }),
    stage: fc.constantFrom('saleable' as const, 'juvenile' as const),
  }),
  fc.record({ of: fc.constant('young' as const), saleable: number, juveniles: number, berried: number }),
  fc
    .array(fc.integer({ min: 0, max: 30 }), { minLength: 2, maxLength: 4 })
    .map((passes) => ({ of: 'passes' as const, passes, saleable: passes.reduce((sum, one) => sum + one, 0) })),
);
/** Facts of a tub that is counted in the first ten days, with some before and after. */
const facts: fc.Arbitrary<ColonyEvent[]> = fc
  .tuple(
    fc.tuple(fc.integer({ min: 0, max: 10 }), number.map(full)),
    fc.array(fc.tuple(fc.integer({ min: 0, max: lastDay }), act), { minLength: 1, maxLength: 7 }),
  )
  .map(([first, others]) => [first, ...others].map(([on, one], nth) => eventAt(on, nth + 1, one)));

/** All that a colony says, to be compared to the last bit. */
const told = (colony: Colony | null): unknown =>
  colony === null ? null : { ...colony, numbers: Buffer.from(colony.numbers.slice().buffer).toString('base64') };

const atEnd = (events: readonly ColonyEvent[]): unknown => told(replay(tub, events, null, dayAt(lastDay)).colony);

describe('a replay', () => {
  it('is the same to the last bit from any snapshot, through its bytes, as from the beginning', () => {
    fc.assert(
      fc.property(facts, fc.integer({ min: 0, max: lastDay }), (events, kept) => {
        const whole = replay(tub, events, null, dayAt(lastDay), (on) => on === dayAt(kept));
        const snapshot = whole.snapshots.find(({ day }) => day === dayAt(kept));
        if (snapshot === undefined) return;
        const read = decodeColony(encodeColony(snapshot, tub), tub);
        expect(told(read)).toEqual(told(snapshot));
        expect(told(replay(tub, events, read, dayAt(lastDay)).colony)).toEqual(told(whole.colony));
      }),
      { numRuns: 40 },
    );
  });

  it('does not mind the order in which facts were entered late, or that one was there and is void', () => {
    fc.assert(
      fc.property(facts, fc.nat(), (events, which) => {
        const late = events[which % events.length];
        const others = events.filter((event) => event !== late);
        if (late === undefined) return;
        expect(atEnd([...others, late])).toEqual(atEnd(events));
        // Entered late: a snapshot of the day before the fact is still good, with the fact and, when it is void again, without.
        const before = replay(tub, events, null, dayAt(lastDay), () => true).snapshots.findLast(
          ({ day }) => day < late.day,
        );
        if (before === undefined) return;
        expect(told(replay(tub, events, before, dayAt(lastDay)).colony)).toEqual(atEnd(events));
        expect(told(replay(tub, others, before, dayAt(lastDay)).colony)).toEqual(atEnd(others));
      }),
      { numRuns: 40 },
    );
  });

  it('is the same fact by fact as all at once', () => {
    fc.assert(
      fc.property(facts, (events) => {
        const first = replay(tub, events, null, dayAt(0)).colony;
        if (first === null) return;
        let colony = first;
        for (const event of events.filter(({ day }) => day > start).toSorted((a, b) => (a.at < b.at ? -1 : 1))) {
          colony = observed(colony, tub, event).colony;
        }
        expect(told(advanced(colony, tub, dayAt(lastDay)))).toEqual(atEnd(events));
      }),
      { numRuns: 20 },
    );
  });

  it('leaves numbers from 0 up in every row of animals, whatever is logged', () => {
    fc.assert(
      fc.property(facts, fc.double({ min: 2, max: 36, noNaN: true }), (events, tempC) => {
        const anyWater = tubOf({ temps: () => ({ tempC, sdC: 3 }) });
        const { colony } = replay(anyWater, events, null, dayAt(lastDay));
        if (colony === null) return;
        expect(colony.numbers.every(Number.isFinite)).toBe(true);
        expect(colony.numbers.subarray(0, 17 * 128).every((animals) => animals >= 0)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('has nothing to say before the first count', () => {
    expect(
      replay(tub, history([0, sent(5)], [3, { of: 'moveIn', number: 20, stage: 'saleable' }]), null, dayAt(9)),
    ).toEqual({
      colony: null,
      surprises: [],
      snapshots: [],
    });
  });

  it('does not change a colony that it goes on from', () => {
    const { colony } = replay(tub, history([0, full(50)]), null, dayAt(0));
    if (colony === null) throw new Error('not counted');
    const before = told(colony);
    replay(tub, history([0, full(50)], [4, sent(10)]), colony, dayAt(30));
    advanced(colony, tub, dayAt(30));
    expect(told(colony)).toEqual(before);
  });
});

describe('a snapshot', () => {
  const { colony } = replay(tub, history([0, full(50)]), null, dayAt(0));
  if (colony === null) throw new Error('not counted');
  const bytes = encodeColony(colony, tub);

  it('of another tub, another water or length, or another version reads as none', () => {
    expect(decodeColony(bytes, tub)).not.toBeNull();
    for (const other of [tubOf({ id: 8 }), tubOf({ netLitres: 21 }), tubOf({ saleableMm: 16 })]) {
      expect(decodeColony(bytes, other)).toBeNull();
    }
    const older = bytes.slice();
    older[2] = 255;
    expect(decodeColony(older, tub)).toBeNull();
    expect(decodeColony(bytes.subarray(1), tub)).toBeNull();
  });

  it('is kept for fewer and fewer days, and what is kept later was kept before', () => {
    const kept = (today: number) =>
      Array.from({ length: today + 1 }, (_, on) => on).filter((on) => isKept(dayAt(on), dayAt(today)));
    const tenYears = kept(3650);
    expect(tenYears.length).toBeLessThan(50);
    const gaps = tenYears.slice(1).map((on, nth) => on - (tenYears[nth] ?? 0));
    expect(Math.max(...gaps)).toBeLessThanOrEqual(364);
    const yearBefore = new Set(kept(3285));
    expect(tenYears.filter((on) => on <= 3285 && !yearBefore.has(on))).toEqual([]);
    expect(kept(3650)).toContain(3650);
  });
});

describe('an ensemble', () => {
  it('stays within what a tub can be, however long and oddly it is counted', () => {
    const odd = Array.from({ length: 150 }, (_, nth) => {
      const [few, many] = [(nth * 7) % 5, (nth * 37) % 90];
      return [
        10 * nth,
        { of: 'young', saleable: few + 3, juveniles: nth % 3 === 0 ? many : few, berried: few },
      ] as const;
    });
    const { colony } = replay(tub, history(...odd), null, dayAt(1500));
    if (colony === null) throw new Error('not counted');
    expect(colony.numbers.every(Number.isFinite)).toBe(true);
    for (const { row, kind, median, sd } of traits) {
      const values = [...colony.numbers.subarray(row * 128, (row + 1) * 128)];
      const off = values.map((value) => Math.abs(kind === 'factor' ? Math.log(value / median) : value) / sd);
      expect(Math.max(...off), `row ${row}`).toBeLessThan(5);
    }
    expect(Math.max(...colony.numbers.subarray(0, 12 * 128))).toBeLessThan(5000);
  });

  it('does not collapse after many full counts, and opens again when nobody counts', () => {
    const counts = Array.from({ length: 24 }, (_, month) => [30 * month, full(55 + (month % 3) * 5)] as const);
    const { colony } = replay(tub, history(...counts), null, dayAt(30 * 23));
    if (colony === null) throw new Error('not counted');
    const now = saleableOf(colony);
    expect(new Set(now).size).toBeGreaterThan(120);
    const width = (of: Colony): number => {
      const { low, high } = rangeOf(saleableOf(of));
      return high - low;
    };
    expect(width(colony)).toBeGreaterThanOrEqual(4);
    expect(width(advanced(colony, tub, dayAt(30 * 23 + 30)))).toBeGreaterThan(1.6 * width(colony));
    expect(width(advanced(colony, tub, dayAt(30 * 23 + 120)))).toBeGreaterThan(4 * width(colony));
  });
});
