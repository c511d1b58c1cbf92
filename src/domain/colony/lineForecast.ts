import type { LocalDay } from '../day.ts';
import type { Closing } from '../dispatch/nextClosing.ts';
import type { Line, Tub } from '../tub.ts';
import type { Breeders } from './model/breeders.ts';
import type { OverDense } from './model/crowded.ts';
import type { ForecastDay } from './model/forecast.ts';
import type { Range } from './model/range.ts';

/** What is ahead of a line; animals, extras included where they are sold. */
export interface LineForecast {
  readonly line: Line;
  readonly from: LocalDay;
  /** The closed stretch that runs, or comes next; null: none. */
  readonly closing: Closing | null;
  /** Sales a week that it is reckoned with, and whether they were asked for or are as now. */
  readonly weekly: number;
  readonly isAsked: boolean;
  /** Today, every four weeks, and the last day. */
  readonly days: readonly ForecastDay[];
  /** The day that is answered for: the one that was asked for, else the re-opening, else half a year ahead. */
  readonly told: ForecastDay & { readonly on: LocalDay };
  readonly bears: WeeklyBorne;
  readonly breeders: BreedersWanted;
  /** The tub that is over-dense first; null: none within half a year. */
  readonly overDense: (OverDense & { readonly tub: Tub; readonly perLitre: number }) | null;
  /** Up to when over-dense tubs were looked for. */
  readonly denseUntil: LocalDay;
  /** What another tub would add by the day that is answered for; null: no tub has animals to spare for one. */
  readonly oneMore: OneMoreTub | null;
  /** Tubs that take part, and those that do not, by why. */
  readonly tubs: number;
  readonly uncounted: readonly Tub[];
  readonly shut: readonly Tub[];
  /** The tub whose count would tell most; null: hardly any doubt. */
  readonly sharpest: Tub | null;
}

/** What a line bears a week. */
export interface WeeklyBorne {
  /** Whole animals; null: even unsold it does not reach what is wanted. */
  readonly weekly: number | null;
  /** The day by which it counts. */
  readonly until: LocalDay;
  /** Whether any day before it is open; where not, nothing can be sold anyway. */
  readonly isOpen: boolean;
  /** Animals over the breeders wanted then, and whether they are a month's sales or the least. */
  readonly stock: number;
  readonly isMonth: boolean;
}

/** Breeders to hold over a stretch. */
export interface BreedersWanted extends Breeders {
  readonly from: LocalDay;
  readonly until: LocalDay;
  /** Effective size that shall be left. */
  readonly wanted: number;
}

/** What one more tub, like the fullest and stocked from it, would add. */
export interface OneMoreTub {
  readonly like: Tub;
  /** Animals moved into it. */
  readonly number: number;
  /** More animals over the breeders, those of the new tub held back too. */
  readonly adds: Range;
}
