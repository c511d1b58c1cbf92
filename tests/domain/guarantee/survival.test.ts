import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ArrivedParcel,
  airBandOf,
  survivalRecord,
  unlikeness,
  wilsonInterval,
} from '../../../src/domain/index.ts';

fc.configureGlobal({ seed: 20270413 });

const parcel = (more: Partial<ArrivedParcel> = {}): ArrivedParcel => ({
  catches: [{ tubId: 1, lineId: 1, number: 12 }],
  ...{ ordered: 10, dead: 0, transitDays: 1, air: 'mild' },
  ...more,
});
const twoLines = [
  { tubId: 1, lineId: 1, number: 12 },
  { tubId: 2, lineId: 2, number: 24 },
];

describe('the survival record', () => {
  it('counts animals, parcels and full orders', () => {
    const record = survivalRecord([parcel(), parcel({ dead: 2 }), parcel({ dead: 3 })]);
    expect(record.all).toMatchObject({ sent: 36, alive: 31, parcels: 3, interval: wilsonInterval(31, 36), few: true });
    expect(record.fullOrders).toEqual({ full: 2, parcels: 3, interval: wilsonInterval(2, 3) });
  });

  it('tells it by line, by tub with the worst first, by days and by the air', () => {
    const record = survivalRecord([
      parcel({ dead: 1, transitDays: 2, air: 'cold' }),
      parcel({ catches: [{ tubId: 2, lineId: 2, number: 20 }], transitDays: null, air: 'unknown' }),
      parcel(),
    ]);
    expect(record.byLine.map(({ key, alive, sent }) => [key, alive, sent])).toEqual([
      [1, 23, 24],
      [2, 20, 20],
    ]);
    expect(record.byTub.map(({ key }) => key)).toEqual([1, 2]);
    expect(record.byTransitDays.map(({ key }) => key)).toEqual([1, 2, null]);
    expect(record.byAir.map(({ key }) => key)).toEqual(['cold', 'mild', 'unknown']);
  });

  it('shares the dead of a mixed parcel by number, and says how many were shared', () => {
    const record = survivalRecord([parcel({ catches: twoLines, dead: 6 }), parcel({ catches: twoLines })]);
    expect(record.byLine.map(({ alive, sent }) => [alive, sent])).toEqual([
      [22, 24],
      [44, 48],
    ]);
    expect(record.shared).toBe(1);
  });

  it('calls a group worse only where its whole range lies under the share of all', () => {
    const good = Array.from({ length: 40 }, () => parcel());
    const bad = parcel({ catches: [{ tubId: 9, lineId: 1, number: 12 }], dead: 6 });
    const record = survivalRecord([...good, bad]);
    expect(record.byTub.map(({ key, worse }) => [key, worse])).toEqual([
      [9, true],
      [1, false],
    ]);
    expect(survivalRecord([...good, parcel({ ...bad, dead: 0 })]).byTub.some(({ worse }) => worse)).toBe(false);
  });

  it('does so less readily where parcels differ more than their animals by themselves would', () => {
    // One tub lost two whole parcels and none in the others: that is the parcels, hardly the tub.
    const others = Array.from({ length: 30 }, (_, index) => parcel({ dead: index % 15 === 0 ? 12 : 0 }));
    const own = Array.from({ length: 10 }, (_, index) =>
      parcel({ catches: [{ tubId: 9, lineId: 1, number: 12 }], dead: index < 2 ? 12 : 0 }),
    );
    const record = survivalRecord([...others, ...own]);
    expect(wilsonInterval(96, 120).high).toBeLessThan(record.all.alive / record.all.sent);
    expect(record.byTub.map(({ key, worse }) => [key, worse])).toEqual([
      [9, false],
      [1, false],
    ]);
    expect(unlikeness([parcel(), parcel({ dead: 12 })], 0.5)).toBe(12 * 2);
    expect([unlikeness([parcel()], 0.5), unlikeness([parcel(), parcel()], 1)]).toEqual([1, 1]);
  });

  it('leaves out parcels without animals, and takes more dead than sent as all', () => {
    expect(survivalRecord([parcel({ catches: [] })])).toMatchObject({ all: { sent: 0 }, fullOrders: { parcels: 0 } });
    expect(survivalRecord([parcel({ dead: 40 })]).all).toMatchObject({ sent: 12, alive: 0 });
  });

  it('adds up to the same animals however it is grouped', () => {
    const anyCatch = fc.record({
      tubId: fc.integer({ min: 1, max: 4 }),
      lineId: fc.integer({ min: 1, max: 3 }),
      number: fc.integer({ min: 1, max: 30 }),
    });
    const any = fc.record({
      catches: fc.array(anyCatch, { maxLength: 4 }),
      ...{ ordered: fc.integer({ min: 0, max: 60 }), dead: fc.integer({ min: 0, max: 40 }) },
      transitDays: fc.option(fc.integer({ min: 1, max: 3 })),
      air: fc.constantFrom('cold' as const, 'mild' as const, 'warm' as const, 'unknown' as const),
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 12 }), (parcels) => {
        const { all, byLine, byTub, byTransitDays, byAir } = survivalRecord(parcels);
        for (const groups of [byLine, byTub, byTransitDays, byAir]) {
          expect(groups.reduce((sum, { sent }) => sum + sent, 0)).toBe(all.sent);
          expect(groups.reduce((sum, { alive }) => sum + alive, 0)).toBe(all.alive);
          for (const { sent, alive } of groups) {
            expect(alive).toBeGreaterThanOrEqual(0);
            expect(alive).toBeLessThanOrEqual(sent);
          }
        }
      }),
    );
  });
});

it('names the air of a way by its coldest night, then by its hottest day', () => {
  const air = (...forecasts: [number, number][]) => airBandOf(forecasts.map(([lowC, highC]) => ({ lowC, highC })));
  expect([air(), air([7.9, 15]), air([8, 24]), air([12, 24.1]), air([12, 30], [6, 10])]).toEqual([
    ...['unknown', 'cold', 'mild', 'warm', 'cold'],
  ]);
});
