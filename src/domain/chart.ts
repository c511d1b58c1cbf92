import type { Instant, LocalDay } from './day.ts';

/** Values over time, ready to be drawn. */
export interface ChartData {
  /** What is shown, without its unit. */
  readonly title: string;
  /** Empty where the title says it, as pH does. */
  readonly unit: string;
  /** IANA zone in which instants fall on days. */
  readonly zone: string;
  /** Whether the values are read from 0 up; where not, the axis begins near the lowest. */
  readonly fromZero: boolean;
  /** One to eight; a series without points is left out. */
  readonly series: readonly ChartSeries[];
  /** A value that should not be passed. */
  readonly limit?: { readonly value: number; readonly label: string };
  /** Moments at which something was done. */
  readonly marks?: { readonly label: string; readonly at: readonly (LocalDay | Instant)[] };
}

export interface ChartSeries {
  readonly name: string;
  /** A line from point to point, a value that holds until the next, or a line inside the range from `low` to `high`. */
  readonly kind: 'line' | 'steps' | 'band';
  /** In the order of time. */
  readonly points: readonly ChartPoint[];
}

export interface ChartPoint {
  readonly at: LocalDay | Instant;
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
}
