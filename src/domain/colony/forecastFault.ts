import type { LocalDay } from '../day.ts';

/** Why a line was not looked ahead. */
export type ForecastFault =
  | { readonly kind: 'weekly-impossible'; readonly typed: number; readonly most: number }
  /** A day in the past, too near for a step, or further than can be told. */
  | { readonly kind: 'not-foreseen'; readonly day: LocalDay; readonly first: LocalDay; readonly last: LocalDay }
  /** Every counted tub is off sale or kept apart. */
  | { readonly kind: 'none-on-sale'; readonly line: string; readonly tubs: readonly string[] };
