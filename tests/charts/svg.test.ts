import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pngOf } from '../../src/charts/png.ts';
import { chartSvg } from '../../src/charts/svg.ts';
import { addDays, type ChartData, day } from '../../src/domain/index.ts';
import { bandSample, nitrateSample, stockSample } from './sample.ts';

/** The words of a picture, in the order in which they stand in it. */
const wordsIn = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, words]) => words ?? '');

/** How many points are marked, by the place of their series among all that the picture draws. */
function marksBySeries(svg: string): number[] {
  const counts = new Map<number, number>();
  for (const [, place] of svg.matchAll(/ecmeta_series_index="(\d+)" ecmeta_data_index/g)) {
    counts.set(Number(place), (counts.get(Number(place)) ?? 0) + 1);
  }
  return [...counts.values()];
}

describe('a chart of lines', () => {
  const svg = chartSvg(stockSample);

  it('names what it shows with its unit, round values, dates up to the last, and each line with its last value', () => {
    expect(wordsIn(svg)).toEqual([
      ...['0', '50', '100', '150'],
      ...['20 Jul', '10 Aug', '31 Aug', '21 Sep', '12 Oct'],
      'Saleable by line, animals',
      'jade 97',
      'snow &lt;&amp;&quot; 40',
    ]);
  });

  it('has a mark for every point and none for a line without points', () => {
    expect(marksBySeries(svg)).toEqual([13, 7]);
  });

  it('tells the lines apart by dash as well as by colour', () => {
    const strokes = [...svg.matchAll(/stroke="(#\w+)" stroke-width="3.5"[^>]*/g)];
    expect(strokes).toHaveLength(2);
    expect(strokes.map(([stroke]) => stroke.includes('stroke-dasharray'))).toEqual([false, true]);
    expect(new Set(strokes.map(([, colour]) => colour)).size).toBe(2);
  });

  it('is the same text however often it is drawn', () => {
    expect(chartSvg(stockSample)).toBe(svg);
  });
});

describe('a chart of steps', () => {
  const svg = chartSvg(nitrateSample);

  it('names its limit, its marks and its last value', () => {
    const words = wordsIn(svg);
    expect(words).toContain('A3 nitrate, mg/L');
    expect(words.slice(-3)).toEqual(['2 water changes', '20', 'limit 20']);
  });

  it('holds a value until the next is read, and marks readings and changes', () => {
    expect(marksBySeries(svg)).toEqual([1, 1, 3]);
    const path = /<path d="([^"]*)"[^>]*stroke-width="3.5"/.exec(svg)?.[1] ?? '';
    const corners = path.match(/[\d.]+ [\d.]+/g) ?? [];
    expect(corners).toHaveLength(5);
    const heights = corners.map((corner) => corner.split(' ')[1]);
    expect(heights[1]).toBe(heights[0]);
    expect(heights[3]).toBe(heights[2]);
  });
});

it('a range is a surface behind its line', () => {
  const svg = chartSvg(bandSample);
  const surface = svg.search(/opacity="0.18"/);
  expect(surface).toBeGreaterThan(0);
  expect(svg.search(/stroke-width="3.5"/)).toBeGreaterThan(surface);
});

it('a chart without a point is a mistake', () => {
  expect(() => chartSvg({ ...stockSample, series: [{ name: 'x', kind: 'line', points: [] }] })).toThrow(
    'without a point',
  );
});

it('whatever the values and names, the labels stand inside the picture and none on another', () => {
  const value = fc.double({ min: -50, max: 5000, noNaN: true });
  const points = fc
    .uniqueArray(fc.nat(600), { minLength: 1, maxLength: 15 })
    .chain((days) =>
      fc
        .array(value, { minLength: days.length, maxLength: days.length })
        .map((values) =>
          days
            .toSorted((a, b) => a - b)
            .map((after, index) => ({ at: addDays(day('2027-01-01'), after), value: values[index] ?? 0 })),
        ),
    );
  const series = fc.record({
    name: fc.string({ unit: 'binary', maxLength: 40 }),
    kind: fc.constantFrom('line' as const, 'steps' as const),
    points,
  });
  const chart: fc.Arbitrary<ChartData> = fc.record({
    title: fc.string({ unit: 'binary', maxLength: 90 }),
    unit: fc.constantFrom('', 'mg/L'),
    zone: fc.constant('UTC'),
    fromZero: fc.boolean(),
    series: fc.array(series, { minLength: 1, maxLength: 8 }),
  });
  fc.assert(
    fc.property(chart, (data) => {
      const svg = chartSvg(data);
      expect(pngOf(svg).readUInt32BE(16)).toBe(720);
      const beside = [
        ...svg.matchAll(
          /<text dominant-baseline="central" text-anchor="start"[^>]*translate\(([\d.]+) ([\d.]+)\)|<text dominant-baseline="central" text-anchor="start"[^>]*x="([\d.]+)" y="([\d.]+)"/g,
        ),
      ]
        .map(([, x1, y1, x2, y2]) => ({ x: Number(x1 ?? x2), y: Number(y1 ?? y2) }))
        .filter(({ x }) => x > 100)
        .map(({ y }) => y)
        .sort((a, b) => a - b);
      expect(beside).toHaveLength(data.series.length);
      for (const [index, y] of beside.entries()) {
        expect(y).toBeGreaterThan(56);
        expect(y).toBeLessThanOrEqual(357);
        if (index > 0) expect(y - (beside[index - 1] ?? 0)).toBeGreaterThan(22);
      }
    }),
    { numRuns: 25, seed: 20270413 },
  );
});
