import type { Cost } from './cost.ts';
import type { Period } from './period.ts';
import type { LineMoney, MoneyTotals, RestMoney } from './totals.ts';

/** A cost that was just logged. */
export interface CostLogged {
  readonly cost: Cost;
  /** What all costs of its kind come to in its month, this one included, minor units. */
  readonly kindInMonthMinor: number;
  readonly entryId: number;
}

/** What it brings to have a tub, or to work an hour: minor units; null where there is none of it. */
export interface Yields {
  readonly perTenMinor: number | null;
  readonly perLitreMinor: number | null;
}

/** When one more tub of the line that gains most by it has paid what it cost. */
export interface Payback {
  readonly line: string;
  readonly netPerMonthMinor: number;
  /** What a tub cost so far, on average; null: no cost of kind tub was logged with a tub. */
  readonly costMinor: number | null;
  /** Null: never, or its cost is not known. */
  readonly months: number | null;
}

/** Money of some days: what it came to, by line, and what each animal, litre and hour brought. */
export interface MoneyReport extends Yields {
  readonly period: Period;
  /** The days are not all over: figures go to today. */
  readonly isSoFar: boolean;
  readonly totals: MoneyTotals;
  readonly lines: readonly (LineMoney & Yields)[];
  /** What is no line's; with the lines it adds up to the totals. */
  readonly rest: readonly RestMoney[];
  /** Animals paid for. */
  readonly sold: number;
  readonly perHourMinor: number | null;
  /** Hours of chores that were done, by the minutes that each is set to. */
  readonly choreHours: number;
  /** Sales of before items kept their price, whose parts of the price are a guess. */
  readonly guessed: number;
  /** Null: too little was sold, or too short a time, to say. */
  readonly payback: Payback | null;
}

/** A year with its months. */
export interface MoneyYear {
  readonly year: MoneyReport;
  /** Oldest first, those still to come left out. */
  readonly months: readonly { readonly period: Period; readonly totals: MoneyTotals }[];
}
