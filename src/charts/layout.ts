import type { ChartData, ChartPoint } from '../domain/index.ts';
import { apart } from './apart.ts';
import { dayNumber, dayTicks } from './days.ts';
import { type Look, lookOf, size, text } from './looks.ts';
import { type Scale, scaleFor } from './scale.ts';
import { chartTitle, fitted, valueLabel, widthOf } from './words.ts';

/** Where everything of a chart stands, pixels from the top left corner. */
export interface Layout {
  readonly title: string;
  /** What the marks under the plot mean; null: there are none. */
  readonly caption: string | null;
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly days: { readonly min: number; readonly max: number; readonly ticks: ReturnType<typeof dayTicks> };
  readonly scale: Scale;
  readonly lines: readonly Line[];
  readonly limit: { readonly value: number; readonly label: Label } | null;
  /** Day numbers of the marks. */
  readonly marks: readonly number[];
}

export interface Line {
  readonly kind: 'line' | 'steps' | 'band';
  readonly look: Look;
  readonly points: readonly DrawnPoint[];
  readonly label: Label;
}

export interface DrawnPoint {
  readonly day: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Label {
  readonly words: string;
  readonly x: number;
  readonly y: number;
}

const EDGE = 16;
const TITLE_ROOM = 56;
const CAPTION_ROOM = 30;
const DATES_ROOM = 48;
const LABEL_GAP = text.body + 5;
/** Between the plot and the labels beside it; the mark of a series stands there too. */
export const besidePlot = { gap: 12, mark: 22 } as const;
/** A name beside the plot may take this much before it is cut. */
const NAME_MOST = 170;

/** Lays a chart out. @throws where no series has a point, as there is nothing to draw */
export function layOut(chart: ChartData): Layout {
  const shown = chart.series
    .filter(({ points }) => points.length > 0)
    .map((series, place) => ({
      ...series,
      look: lookOf(place),
      points: series.points.map((point) => drawnPoint(point, chart.zone)),
    }));
  const all = shown.flatMap(({ points }) => points);
  if (all.length === 0) throw new Error(`a chart without a point: ${chart.title}`);
  const isAlone = shown.length === 1;
  const caption = chart.marks === undefined || chart.marks.at.length === 0 ? null : chart.marks.label;
  const marks = caption === null ? [] : (chart.marks?.at ?? []).map((at) => dayNumber(at, chart.zone));
  const scale = scaleFor(
    [
      ...all.flatMap(({ value, low, high }) => [value, low, high]),
      ...(chart.limit === undefined ? [] : [chart.limit.value]),
    ],
    chart.fromZero,
  );
  const days = daysOf([...all.map(({ day }) => day), ...marks]);

  const names = shown.map(({ name, points }) => {
    const value = valueLabel(points.at(-1)?.value ?? 0);
    return isAlone ? value : `${fitted(name, NAME_MOST)} ${value}`;
  });
  const limitWords = chart.limit === undefined ? [] : [fitted(chart.limit.label, NAME_MOST)];
  const indent = besidePlot.gap + (isAlone ? 0 : besidePlot.mark);
  const beside = Math.max(
    ...names.map((words) => indent + widthOf(words)),
    ...limitWords.map((words) => besidePlot.gap + widthOf(words)),
  );
  const ticks = Math.max(widthOf(scale.min.toFixed(scale.decimals)), widthOf(scale.max.toFixed(scale.decimals)));
  const plot = {
    left: EDGE + ticks + 10,
    right: size.width - EDGE - Math.max(beside, widthOf('12 Oct') / 2),
    top: TITLE_ROOM + (caption === null ? 0 : CAPTION_ROOM) + text.body / 2,
    bottom: size.height - DATES_ROOM,
  };
  const yOf = (value: number): number =>
    plot.bottom - ((value - scale.min) / (scale.max - scale.min)) * (plot.bottom - plot.top);
  const wanted = [
    ...shown.map(({ points }) => points.at(-1)?.value ?? 0),
    ...(chart.limit === undefined ? [] : [chart.limit.value]),
  ];
  const heights = apart(wanted.map(yOf), LABEL_GAP, plot.top, plot.bottom);
  const labelAt = (words: string, x: number, place: number): Label => ({ words, x, y: heights[place] ?? plot.top });

  return {
    title: fitted(chartTitle(chart), size.width - 2 * EDGE, text.title),
    caption,
    plot,
    days: { ...days, ticks: dayTicks(days.min, days.max) },
    scale,
    lines: shown.map(({ kind, look, points }, place) => ({
      kind,
      look,
      points,
      label: labelAt(names[place] ?? '', plot.right + indent, place),
    })),
    limit:
      chart.limit === undefined
        ? null
        : { value: chart.limit.value, label: labelAt(limitWords[0] ?? '', plot.right + besidePlot.gap, shown.length) },
    marks,
  };
}

const drawnPoint = ({ at, value, low = value, high = value }: ChartPoint, zone: string): DrawnPoint => ({
  day: dayNumber(at, zone),
  value,
  low,
  high,
});

/** From the first to the last day; what lies on one day alone gets that whole day. */
function daysOf(numbers: readonly number[]): { min: number; max: number } {
  const min = numbers.reduce((a, b) => Math.min(a, b));
  const max = numbers.reduce((a, b) => Math.max(a, b));
  return Math.floor(min) === Math.floor(max) ? { min: Math.floor(min), max: Math.floor(min) + 1 } : { min, max };
}
