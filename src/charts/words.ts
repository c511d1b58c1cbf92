import type { ChartData, ChartSeries } from '../domain/index.ts';
import { dateLabel, dayNumber } from './days.ts';
import { text } from './looks.ts';

/** Width of a character of the font against its size; wide enough for nearly all words. */
const CHARACTER = 0.62;

/** What a picture can hold: no control characters, which its format does not know, and no halves of characters. */
const drawable = (words: string): string => words.replace(/[\p{Cc}\p{Cs}\ufffe\uffff]/gu, '');

/** Room that words take, pixels; rather too much than too little. */
export const widthOf = (words: string, px: number = text.body): number => Math.ceil([...words].length * px * CHARACTER);

/** Words that fit into a width, cut with an ellipsis where they would not. */
export function fitted(words: string, room: number, px: number = text.body): string {
  const shown = [...drawable(words)];
  const most = Math.max(1, Math.floor(room / (px * CHARACTER)));
  return shown.length <= most ? shown.join('') : `${shown.slice(0, most - 1).join('')}…`;
}

/** A value with two decimals at most, one from 10 up. */
export const valueLabel = (value: number): string => String(Number(value.toFixed(Math.abs(value) >= 10 ? 1 : 2)));

/** "A3 nitrate, mg/L". */
export const chartTitle = ({ title, unit }: ChartData): string => (unit === '' ? title : `${title}, ${unit}`);

/** The most that the service takes for a description. */
const ALT_MOST = 1024;

/** The chart in words, for those who do not see it. */
export function chartAlt(chart: ChartData): string {
  const shown = chart.series.flatMap((series) => seriesWords(series, chart.zone));
  const limit = chart.limit === undefined ? [] : [chart.limit.label];
  const marks = chart.marks === undefined ? [] : [chart.marks.label];
  return drawable(`Chart of ${chartTitle(chart)}. ${[...shown, ...limit, ...marks].join('; ')}.`).slice(0, ALT_MOST);
}

function seriesWords({ name, points }: ChartSeries, zone: string): string[] {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return [];
  const said = ({ value, at }: typeof first): string => `${valueLabel(value)} on ${dateLabel(dayNumber(at, zone))}`;
  return [first === last ? `${name} ${said(first)}` : `${name} from ${said(first)} to ${said(last)}`];
}
