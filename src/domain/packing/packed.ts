import type { Mended } from '../water/possible.ts';
import type { BagPlan } from './bagPlan.ts';

/** What a bag plan was reckoned with although nobody said it. */
export type Untold = 'length' | 'hours' | 'temperature';

/** A bag plan with where its figures come from. */
export interface Packed {
  readonly plan: BagPlan;
  readonly untold: readonly Untold[];
  /** Of the water in the tubs: measured lately, or taken to be usual. */
  readonly measured: { readonly tempC: boolean; readonly ph: boolean };
  /** Degrees of the other scale that the air was probably meant in. */
  readonly slip: Mended | null;
}

/** One line's bags in a parcel. */
export interface LineBags {
  readonly line: string;
  readonly plan: BagPlan;
}

/** Why there is no bag plan. Nothing is logged either way. Temperatures in °C, bounds too; `typed` is on the scale of the person's units. */
export interface PackRefusal {
  readonly kind: 'impossible-pack';
  readonly name: 'number' | 'length-mm' | 'hours' | 'temp';
  readonly typed: number;
  readonly min: number;
  readonly max: number;
  readonly mended: Mended | { readonly value: number; readonly how: 'centimetres' | 'inches' } | null;
}
