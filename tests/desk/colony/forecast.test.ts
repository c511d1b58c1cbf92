import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import {
  addTubs,
  type ForecastInput,
  forecastLine,
  logCount,
  logReading,
  setHold,
  setLine,
  setSeason,
} from '../../../src/desk/index.ts';
import { addDays, day, type LineForecast, type MonthDay } from '../../../src/domain/index.ts';
import { deskAt, type TestDesk } from '../../support/desk.ts';
import { faultOf, sellingDeskAt, taken } from '../../support/sellingDesk.ts';

const open: { close: () => void }[] = [];
afterEach(() => {
  for (const bench of open.splice(0)) bench.close();
});

/** Orange in tubs of 40 L net of gravel, ten held back in each, counted in full with young and eggs, at one temperature. */
function rack(instant: string, { tubs = 2, saleable = 80, tempC = 24 } = {}): TestDesk {
  const bench = deskAt(instant);
  open.push(bench);
  const { desk, by } = bench;
  taken(setLine(desk, by('wren'), { line: 'orange', holdBack: 10 }));
  const names = Array.from({ length: tubs }, (_, nth) => `A${nth + 1}`);
  taken(addTubs(desk, by('wren'), { names, line: 'orange', litres: 50 }));
  for (const tub of names) {
    taken(logReading(desk, by('wren'), { tub, values: { tempC } }));
    taken(logCount(desk, by('wren'), { tub, saleable, juveniles: 60, berried: 15, method: 'full' }));
  }
  return bench;
}

const ahead = ({ desk }: Pick<TestDesk, 'desk'>, input: ForecastInput = {}): LineForecast =>
  taken(forecastLine(desk, 'orange', input));

const winter = (bench: TestDesk): void => {
  taken(setSeason(bench.desk, bench.by('wren'), { from: '11-15' as MonthDay, to: '03-10' as MonthDay }));
};

describe('stock ahead', () => {
  it('grows in a warm summer and not in a cold winter if nothing is sold', () => {
    const summer = ahead(rack('2027-05-01T08:00:00Z', { tempC: 25 }), { weeklySales: 0, until: day('2027-09-01') });
    const cold = ahead(rack('2026-11-15T08:00:00Z', { tempC: 15 }), { weeklySales: 0, until: day('2027-03-10') });
    expect(summer.told.saleable.median).toBeGreaterThan(180);
    expect(cold.told.saleable.median).toBeLessThan(180);
    expect(cold.told.saleable.median).toBeLessThan(summer.told.saleable.median);
  });

  it('begins with what was counted and gets less sure', () => {
    const { days, told } = ahead(rack('2027-05-01T08:00:00Z'), { weeklySales: 0, until: day('2027-09-01') });
    expect(days[0]).toMatchObject({ day: '2027-05-01', allSent: 1 });
    expect(Math.abs((days[0]?.saleable.median ?? 0) - 160)).toBeLessThanOrEqual(10);
    const width = ({ saleable: { low, high } }: LineForecast['days'][number]): number => high - low;
    expect(width(told)).toBeGreaterThan(width(days[1] ?? told));
    expect(days.map((one) => one.day).slice(0, 3)).toEqual(['2027-05-01', '2027-05-29', '2027-06-26']);
  });

  it('is the less the more is sold, and what is sent is surer the less it is', () => {
    const bench = rack('2027-05-01T08:00:00Z');
    const at = (weeklySales: number): LineForecast => ahead(bench, { weeklySales, until: day('2027-08-01') });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 5, max: 40 }), (few, more) => {
        const [less, much] = [at(few), at(few + more)];
        for (const part of ['low', 'median', 'high'] as const) {
          expect(much.told.spare[part]).toBeLessThanOrEqual(less.told.spare[part]);
        }
        expect(much.told.allSent).toBeLessThanOrEqual(less.told.allSent);
        expect(much.bears.weekly).toBe(less.bears.weekly);
      }),
      { numRuns: 12, seed: 20270413 },
    );
  });

  it('loses nothing to sales while it is closed', () => {
    const bench = rack('2026-11-20T08:00:00Z');
    winter(bench);
    const until = day('2027-03-10');
    expect(ahead(bench, { weeklySales: 50, until }).told).toEqual(ahead(bench, { weeklySales: 0, until }).told);
    expect(ahead(bench, { until }).bears).toMatchObject({ isOpen: false, weekly: null });
  });
});

describe('what a line bears', () => {
  it('leaves the breeders and the stock that is wanted, nine times in ten', () => {
    const bench = rack('2027-05-01T08:00:00Z', { tubs: 3 });
    winter(bench);
    const { bears, told, closing } = ahead(bench);
    expect(closing).toEqual({ closesOn: '2027-11-15', opensOn: '2028-03-11' });
    expect(told.on).toBe('2028-03-11');
    expect(bears).toMatchObject({ until: '2028-03-11', isOpen: true, stock: 20, isMonth: false });
    const weekly = bears.weekly ?? 0;
    expect(weekly).toBeGreaterThan(0);
    const sold = ahead(bench, { weeklySales: weekly }).told;
    expect(sold.allSent).toBeGreaterThanOrEqual(0.85);
    expect(sold.spare.low).toBeGreaterThanOrEqual(18);
    const tooMuch = ahead(bench, { weeklySales: 2 * weekly + 2 }).told;
    expect(tooMuch.allSent < 0.9 || tooMuch.spare.low < 20).toBe(true);
  });

  it('is more with more tubs and less with more promised', () => {
    const until = day('2027-08-01');
    const weeklyOf = (tubs: number): number =>
      ahead(rack('2027-05-01T08:00:00Z', { tubs }), { until }).bears.weekly ?? 0;
    expect(weeklyOf(6)).toBeGreaterThan(weeklyOf(2));
  });

  it('is nothing where even unsold the stock is not sure', () => {
    const bench = rack('2027-05-01T08:00:00Z', { tubs: 1, saleable: 12 });
    expect(ahead(bench, { until: day('2027-06-01') }).bears).toMatchObject({ weekly: null, isOpen: true });
  });

  it('looks a season on where hardly a day is open before the closing', () => {
    const bench = rack('2026-11-05T08:00:00Z');
    winter(bench);
    expect(ahead(bench)).toMatchObject({ told: { on: '2027-03-11' }, bears: { until: '2028-03-11', isOpen: true } });
  });

  it('looks half a year ahead where nothing closes', () => {
    const bench = rack('2027-05-01T08:00:00Z');
    const until = addDays(day('2027-05-01'), 182);
    expect(ahead(bench)).toMatchObject({ closing: null, told: { on: until }, bears: { until } });
  });
});

describe('the other answers', () => {
  it('hold breeders over the closed time, more of them the longer it is', () => {
    const bench = rack('2027-05-01T08:00:00Z');
    const short = ahead(bench).breeders;
    winter(bench);
    const long = ahead(bench).breeders;
    expect(short).toMatchObject({ from: '2027-05-01', until: '2027-08-21', wanted: 50 });
    expect(long).toMatchObject({ from: '2027-11-15', until: '2028-03-11' });
    for (const { females, males } of [short, long])
      expect((4 * females * males) / (females + males)).toBeGreaterThan(50);
    expect(long.effectiveNow.low).toBeLessThanOrEqual(long.effectiveNow.high);
  });

  it('name the tub that is over-dense', () => {
    const bench = rack('2027-05-01T08:00:00Z');
    taken(logCount(bench.desk, bench.by('wren'), { tub: 'A2', saleable: 250, method: 'full' }));
    expect(ahead(bench).overDense).toMatchObject({ tub: { name: 'A2' }, likely: '2027-05-01' });
    const sparse = rack('2027-05-01T08:00:00Z', { tubs: 1, saleable: 20, tempC: 16 });
    expect(ahead(sparse)).toMatchObject({ overDense: null, denseUntil: '2027-10-30' });
  });

  it('say what one more tub adds, or that none can start it', () => {
    const full = ahead(rack('2027-05-01T08:00:00Z', { tubs: 1, saleable: 150, tempC: 25 }), {
      until: day('2028-03-01'),
    });
    expect(full.oneMore).toMatchObject({ like: { name: 'A1' }, number: 20 });
    expect(full.oneMore?.adds.median).toBeGreaterThan(0);
    expect(ahead(rack('2027-05-01T08:00:00Z', { tubs: 1, saleable: 19 })).oneMore).toBeNull();
  });
});

describe('who takes part', () => {
  it('is every tub that is counted, on sale and not kept apart', () => {
    const bench = rack('2027-05-01T08:00:00Z', { tubs: 3 });
    const { desk, by } = bench;
    taken(addTubs(desk, by('wren'), { names: ['B1'], line: 'orange', litres: 50 }));
    taken(setHold(desk, by('wren'), { tub: 'A3', reason: 'medicine', until: null }));
    const found = ahead(bench);
    expect(found.tubs).toBe(2);
    expect(found.uncounted.map(({ name }) => name)).toEqual(['B1']);
    expect(found.shut.map(({ name }) => name)).toEqual(['A3']);
    expect(found.days[0]?.saleable.median).toBeLessThan(170);
  });

  it('is nobody in a line that is not counted, not there, or off sale', () => {
    const bench = deskAt('2027-05-01T08:00:00Z');
    open.push(bench);
    const { desk, by } = bench;
    taken(setLine(desk, by('wren'), { line: 'orange' }));
    expect(faultOf(forecastLine(desk, 'orange'))).toEqual({ kind: 'not-counted', line: 'orange', tubs: [] });
    taken(addTubs(desk, by('wren'), { names: ['A1'], line: 'orange', litres: 50 }));
    expect(faultOf(forecastLine(desk, 'orange'))).toMatchObject({ kind: 'not-counted', tubs: ['A1'] });
    taken(logCount(desk, by('wren'), { tub: 'A1', saleable: 40 }));
    taken(setHold(desk, by('wren'), { tub: 'A1', reason: 'medicine', until: null }));
    expect(faultOf(forecastLine(desk, 'orange'))).toEqual({ kind: 'none-on-sale', line: 'orange', tubs: ['A1'] });
    expect(faultOf(forecastLine(desk, 'orang'))).toMatchObject({ kind: 'unknown', near: ['orange'] });
  });
});

describe('sales as now', () => {
  it('are what was sent and promised, over the days since the line began', () => {
    const bench = sellingDeskAt('2027-05-03T08:00:00Z');
    open.push(bench);
    const { desk } = bench;
    const weekly = (): number => taken(forecastLine(desk, 'jade')).weekly;
    expect(weekly()).toBe(0);
    const { id } = bench.sell(20);
    const promised = desk.store.promises.ofLine(1, desk.now());
    bench.advance({ days: 13 });
    const kept = desk.store.promises.ofLine(1, desk.now()).number;
    expect([promised.number, kept]).toEqual([20, 0]);
    expect(weekly()).toBe(0);
    const tub = desk.store.tubs.tubs().find(({ name }) => name === 'A1');
    const entry = desk.store.entries.add(bench.by('wren'), 'parcel', 'sent', desk.now());
    const catches = [{ tubId: tub?.id ?? 0, lineId: 1, number: 21 }];
    desk.store.parcels.addParcel(entry, { saleId: id, tracking: null, at: desk.now(), catches });
    expect(weekly()).toBe(10.5);
    bench.sell(7);
    const { number, extras } = desk.store.promises.ofLine(1, desk.now());
    expect(weekly()).toBeCloseTo((21 + number + extras) / 2, 1);
  });
});

describe('what cannot be foreseen', () => {
  it.each([-1, 1001, 10_000, Number.POSITIVE_INFINITY, Number.NaN])('is %s a week', (weeklySales) => {
    const { desk } = rack('2027-05-01T08:00:00Z', { tubs: 1 });
    expect(faultOf(forecastLine(desk, 'orange', { weeklySales }))).toMatchObject({ kind: 'weekly-impossible' });
  });

  it.each(['2026-05-01', '2027-05-01', '2027-05-07', '2029-05-02', '2127-05-01'])('is a line until %s', (until) => {
    const { desk } = rack('2027-05-01T08:00:00Z', { tubs: 1 });
    expect(faultOf(forecastLine(desk, 'orange', { until: day(until) }))).toEqual({
      kind: 'not-foreseen',
      day: until,
      first: '2027-05-08',
      last: '2029-05-01',
    });
  });

  it('reaches from a week to two years', () => {
    const bench = rack('2027-05-01T08:00:00Z', { tubs: 1 });
    expect(ahead(bench, { until: day('2027-05-08') }).days.map((one) => one.day)).toEqual(['2027-05-01', '2027-05-05']);
    expect(ahead(bench, { until: day('2029-05-01') }).days).toHaveLength(27);
  });
});
