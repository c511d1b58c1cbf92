import type { LocalDay } from '../day.ts';
import type { CostKind } from './cost.ts';

/** What money is about: a line, goods, the postage that buyers pay, or what all lines share. */
export type Pot =
  | { readonly of: 'line' | 'goods'; readonly id: number; readonly name: string }
  | { readonly of: 'postage' }
  | { readonly of: 'shared' };

/** Money that came, or went as a fee, a refund or a cost, on a day, about one thing. What a payment is about in parts is as many movements. */
export interface Movement {
  readonly what: 'taken' | 'fee' | 'refund' | 'cost';
  /** Whole minor units; negative where it was given back (the fee of a cancelled sale). */
  readonly minor: number;
  readonly day: LocalDay;
  readonly pot: Pot;
  /** Null: of no sale. */
  readonly saleId: number | null;
  /** Null: no cost. */
  readonly costKind: CostKind | null;
}

/** Animals of a line that were paid for on a day; negative where the sale was cancelled then. */
export interface SoldAnimals {
  readonly lineId: number;
  readonly name: string;
  readonly number: number;
  readonly day: LocalDay;
}
