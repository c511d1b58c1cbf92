import { type EChartsOption, init, type LineSeriesOption } from 'echarts/dist/echarts.esm.min';
import type { ChartData } from '../domain/index.ts';
import { besidePlot, type Label, type Layout, type Line, layOut } from './layout.ts';
import { colours, type Look, size, text } from './looks.ts';

/** A chart as SVG, the same text for the same data. @throws where no series has a point */
export function chartSvg(chart: ChartData): string {
  const canvas = init(null, null, { renderer: 'svg', ssr: true, ...size });
  try {
    canvas.setOption(optionOf(layOut(chart)));
    return still(canvas.renderToSVGString());
  } finally {
    canvas.dispose();
  }
}

/** Without the styles for a pointer that hovers, and without the count of pictures that the library keeps in the names of parts. */
const still = (svg: string): string =>
  svg
    .replace(/<style >.*?<\/style>\n?/s, '')
    .replace(/ class="[^"]*"/g, '')
    .replace(/\bzr\d+-/g, 'chart-');

type Shape = Record<string, unknown>;

function optionOf(layout: Layout): EChartsOption {
  const { plot, days, scale } = layout;
  const label = { color: colours.ink, fontSize: text.body, fontFamily: text.font };
  return {
    animation: false,
    backgroundColor: colours.paper,
    textStyle: { fontFamily: text.font },
    grid: {
      left: plot.left,
      right: size.width - plot.right,
      top: plot.top,
      bottom: size.height - plot.bottom,
      containLabel: false,
      outerBoundsMode: 'none',
    },
    xAxis: {
      type: 'value',
      min: days.min,
      max: days.max,
      splitLine: { show: false },
      axisLine: { lineStyle: { color: colours.faint, width: 2 }, onZero: false },
      axisTick: { show: true, length: 7, lineStyle: { color: colours.faint, width: 2 }, customValues: days.ticks.at },
      axisLabel: { ...label, margin: 12, customValues: days.ticks.at, formatter: days.ticks.label },
    },
    yAxis: {
      type: 'value',
      min: scale.min,
      max: scale.max,
      interval: scale.step,
      axisLine: { show: false },
      axisTick: { show: false },
      splitLine: { lineStyle: { color: colours.grid, width: 1.5 } },
      axisLabel: { ...label, margin: 10, formatter: (value: number) => value.toFixed(scale.decimals) },
    },
    series: [...marksOf(layout), ...limitOf(layout), ...layout.lines.map(seriesOf)],
    graphic: [
      words({ words: layout.title, x: 16, y: 32 }, colours.ink, text.title),
      ...captionOf(layout),
      ...layout.lines.flatMap((line) => bandOf(line, layout)),
      ...layout.lines.flatMap((line) => besideOf(line, layout.lines.length > 1)),
      ...(layout.limit === null ? [] : [words(layout.limit.label, colours.limit)]),
    ] as never,
  };
}

/** More points than this stand too near for marks. */
const MOST_MARKED = 60;

function seriesOf({ kind, look, points }: Line): LineSeriesOption {
  return {
    type: 'line',
    silent: true,
    clip: false,
    data: points.map(({ day, value }) => [day, value]),
    ...(kind === 'steps' ? { step: 'end' } : {}),
    showSymbol: points.length <= MOST_MARKED,
    showAllSymbol: true,
    symbol: look.mark,
    symbolSize: points.length > 26 ? 8 : 12,
    lineStyle: { color: look.colour, width: 3.5, type: look.dash.length === 0 ? 'solid' : [...look.dash] },
    itemStyle: look.isHollow
      ? { color: colours.paper, borderColor: look.colour, borderWidth: 3 }
      : { color: look.colour },
    z: 3,
  };
}

function limitOf({ limit, days }: Layout): LineSeriesOption[] {
  if (limit === null) return [];
  return [
    {
      type: 'line',
      silent: true,
      data: [
        [days.min, limit.value],
        [days.max, limit.value],
      ],
      showSymbol: false,
      lineStyle: { color: colours.limit, width: 2.5, type: [9, 7] },
      z: 2,
    },
  ];
}

/** More marks than this would hatch the plot: then they have no line above their foot. */
const MOST_MARK_LINES = 16;

/** Each mark a foot that points at its day, with a fine line above it. */
function marksOf({ marks, scale }: Layout): LineSeriesOption[] {
  const isMany = marks.length > MOST_MARK_LINES;
  return marks.map((at) => ({
    type: 'line',
    silent: true,
    clip: false,
    data: [
      { value: [at, scale.min], symbol: 'triangle', symbolSize: isMany ? 10 : 14, symbolOffset: [0, isMany ? -5 : -7] },
      { value: [at, scale.max], symbol: 'none' },
    ],
    showAllSymbol: true,
    itemStyle: { color: colours.faint },
    lineStyle: { color: colours.faint, width: isMany ? 0 : 1.5, type: [2, 5] },
    z: 1,
  }));
}

function captionOf({ caption }: Layout): Shape[] {
  if (caption === null) return [];
  return [
    markOf('triangle', 24, 64, 7, { fill: colours.faint }),
    words({ words: caption, x: 38, y: 65 }, colours.faint),
  ];
}

function bandOf({ kind, look, points }: Line, { plot, days, scale }: Layout): Shape[] {
  if (kind !== 'band') return [];
  const at = (day: number, value: number): [number, number] => [
    plot.left + ((day - days.min) / (days.max - days.min)) * (plot.right - plot.left),
    plot.bottom - ((value - scale.min) / (scale.max - scale.min)) * (plot.bottom - plot.top),
  ];
  const upper = points.map(({ day, high }) => at(day, high));
  const lower = points.map(({ day, low }) => at(day, low)).reverse();
  return [
    {
      type: 'polygon',
      silent: true,
      z: 1,
      shape: { points: [...upper, ...lower] },
      style: { fill: look.colour, opacity: 0.18 },
    },
  ];
}

function besideOf({ label, look }: Line, isMarked: boolean): Shape[] {
  const said = words(label, look.colour);
  return isMarked ? [markOf(look.mark, label.x - besidePlot.mark / 2 - 3, label.y, 7, styleOf(look)), said] : [said];
}

const styleOf = ({ colour, isHollow }: Look): Shape =>
  isHollow ? { fill: colours.paper, stroke: colour, lineWidth: 3 } : { fill: colour };

function words(label: Label, fill: string, fontSize: number = text.body): Shape {
  const style = {
    text: label.words,
    x: label.x,
    y: label.y,
    fill,
    fontSize,
    fontFamily: text.font,
    textVerticalAlign: 'middle',
  };
  return { type: 'text', silent: true, z: 5, style };
}

/** A mark around a point, `r` pixels to its edges. */
function markOf(mark: Look['mark'], x: number, y: number, r: number, style: Shape): Shape {
  const common = { silent: true, z: 5, style };
  const corners = {
    rect: [
      [-r, -r],
      [r, -r],
      [r, r],
      [-r, r],
    ],
    triangle: [
      [0, -r],
      [r, r],
      [-r, r],
    ],
    diamond: [
      [0, -r * 1.2],
      [r * 1.2, 0],
      [0, r * 1.2],
      [-r * 1.2, 0],
    ],
  } as const;
  if (mark === 'circle') return { ...common, type: 'circle', shape: { cx: x, cy: y, r } };
  return { ...common, type: 'polygon', shape: { points: corners[mark].map(([dx, dy]) => [x + dx, y + dy]) } };
}
