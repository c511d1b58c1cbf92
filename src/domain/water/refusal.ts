import type { Instant } from '../day.ts';
import type { WaterValueName } from '../tub.ts';
import type { Mended } from './possible.ts';

/** Why something about a tub's water was not written. */
export type WaterFault =
  | {
      readonly kind: 'impossible-water';
      readonly tub: string;
      readonly value: WaterValueName;
      readonly typed: number;
      /** What it may have been meant to be, the likeliest first. */
      readonly mended: readonly Mended[];
      readonly last: { readonly value: number; readonly at: Instant } | null;
    }
  /** It can be, but lies far from the tub's last value while a likely slip comes near it. */
  | {
      readonly kind: 'ask-unlikely-water';
      readonly tub: string;
      readonly value: WaterValueName;
      /** On the scale of the person's units. */
      readonly typed: number;
      readonly mended: readonly Mended[];
      /** Null: not read of late. */
      readonly last: { readonly value: number; readonly at: Instant } | null;
    }
  /** Temperature and pH in each other's place. */
  | {
      readonly kind: 'ask-swapped-water';
      readonly tub: string;
      /** As typed, on the scale of the person's units. */
      readonly temp: number;
      readonly ph: number;
    }
  /** More than half the tub, and more than the policy's most. */
  | {
      readonly kind: 'ask-much-changed';
      readonly tub: string;
      readonly litres: number;
      readonly percent: number;
      readonly netLitres: number;
    }
  /** Litres and per cent that are not the same. */
  | {
      readonly kind: 'ask-which-amount';
      readonly tub: string;
      readonly litres: number;
      readonly percent: number;
      readonly netLitres: number;
    }
  | { readonly kind: 'more-than-the-tub'; readonly tub: string; readonly litres: number; readonly netLitres: number }
  | {
      readonly kind: 'ask-changed-already';
      readonly tub: string;
      readonly litres: number;
      readonly percent: number;
      readonly togetherPercent: number;
      readonly previous: {
        readonly litres: number;
        readonly percent: number;
        readonly at: Instant;
        readonly by: string;
      };
    }
  /** A change that a reading asked for was logged by somebody since. */
  | {
      readonly kind: 'change-logged-already';
      readonly tub: string;
      readonly litres: number;
      readonly at: Instant;
      readonly by: string;
      readonly loggedAt: Instant;
    };
