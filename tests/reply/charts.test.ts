import { describe, expect, it } from 'vitest';
import {
  type Change,
  day,
  defaultBusiness,
  type Instant,
  noWaterValues,
  type Reading,
  type Tub,
  type WaterValues,
} from '../../src/domain/index.ts';
import { readingHistoryCard, voiceFor, weeklyCard } from '../../src/reply/index.ts';
import { waterChart } from '../../src/reply/waterChart.ts';

const now = '2027-04-13T17:00:00.000Z' as Instant;
const voice = voiceFor({ ...defaultBusiness, zone: 'Europe/Amsterdam' }, now);
const tub = { id: 3, name: 'A3' } as Tub;
const logged = { entryId: 1, by: 'wren', loggedAt: now, tubId: 3, note: null };
const onDay = (date: number): Instant => `2027-04-${String(date).padStart(2, '0')}T16:00:00.000Z` as Instant;
const reading = (date: number, values: Partial<WaterValues>): Reading => ({
  ...logged,
  ...noWaterValues,
  ...values,
  id: date,
  at: onDay(date),
});
const change = (date: number): Change => ({ ...logged, id: date, at: onDay(date), litres: 5 });

const past = {
  tub,
  readings: [
    reading(1, { nitrateMgL: 10, tempC: 20 }),
    reading(5, { nitrateMgL: 40 }),
    reading(9, { nitrateMgL: 20, tempC: 22 }),
  ],
  changes: [change(4)],
  nitrateLimitMgL: 20,
};

describe('the chart of a tub', () => {
  it('has nitrate in steps, its limit, and the changes since the first reading', () => {
    const changes = [{ ...change(4), at: '2027-03-20T10:00:00.000Z' as Instant }, change(4)];
    expect(waterChart(voice, { ...past, changes }, 'nitrateMgL', 3)).toEqual({
      title: 'A3 nitrate',
      unit: 'mg/L',
      zone: 'Europe/Amsterdam',
      fromZero: true,
      series: [
        {
          name: 'nitrate',
          kind: 'steps',
          points: [
            { at: onDay(1), value: 10 },
            { at: onDay(5), value: 40 },
            { at: onDay(9), value: 20 },
          ],
        },
      ],
      limit: { value: 20, label: 'limit 20' },
      marks: { label: '1 water change', at: [onDay(4)] },
    });
  });

  it('reads in the units of the business', () => {
    const us = voiceFor({ ...defaultBusiness, units: 'us' }, now);
    expect(waterChart(us, past, 'tempC', 2)).toMatchObject({
      unit: '°F',
      fromZero: false,
      series: [{ points: [{ value: 68 }, {}] }],
    });
    expect(waterChart(voice, past, 'tempC', 2)).not.toHaveProperty('limit');
  });

  it('stands under a history where nitrate was read three times, or the chosen value twice', () => {
    const chartOf = (readings: readonly Reading[], only?: 'tempC' | 'nitrateMgL') =>
      readingHistoryCard(voice, { ...past, readings }, 90, only).chart?.title;
    expect(chartOf(past.readings)).toBe('A3 nitrate');
    expect(chartOf(past.readings, 'tempC')).toBe('A3 temperature');
    expect(chartOf(past.readings.slice(1))).toBeUndefined();
    expect(chartOf(past.readings.slice(1), 'nitrateMgL')).toBe('A3 nitrate');
    expect(chartOf(past.readings.slice(1), 'tempC')).toBeUndefined();
  });
});

describe('the chart of the week', () => {
  const line = (id: number) => ({ id, name: `line ${id}`, priceMinor: null, saleableMm: 20, holdBack: 10 });
  const weeks = (last: number, count = 3) =>
    ['2027-03-28', '2027-04-04', '2027-04-11']
      .slice(-count)
      .map((text, index) => ({ day: day(text), saleable: last - count + 1 + index }));
  const chartOf = (stocks: readonly (readonly [number, ReturnType<typeof weeks>])[]) =>
    weeklyCard(voice, {
      day: day('2027-04-11'),
      stocks: [],
      past: stocks.map(([id, known]) => ({ line: line(id), weeks: known })),
      sold: { sales: 0, parcels: 0, animals: 0, lines: [], takingsMinor: 0 },
      claims: [],
      watch: [],
      dispatchDays: [],
      waiting: [],
      missed: null,
    }).chart;

  it('has a series for each line that was counted, the most animals first', () => {
    const chart = chartOf([
      [1, weeks(20)],
      [2, weeks(60, 1)],
      [3, []],
    ]);
    expect(chart).toMatchObject({ title: 'Saleable by line', unit: 'animals', fromZero: true });
    expect(chart?.series.map(({ name, points }) => [name, points.length])).toEqual([
      ['line 2', 1],
      ['line 1', 3],
    ]);
  });

  it('shows eight lines at most and says so', () => {
    const chart = chartOf(Array.from({ length: 11 }, (_, id) => [id, weeks(100 - id)] as const));
    expect(chart?.title).toBe('Saleable, 8 of 11 lines');
    expect(chart?.series).toHaveLength(8);
  });

  it('waits for a second week', () => {
    expect(chartOf([[1, weeks(20, 1)]])).toBeUndefined();
    expect(chartOf([])).toBeUndefined();
  });
});
