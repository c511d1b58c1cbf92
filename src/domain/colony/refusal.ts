import type { Instant } from '../day.ts';
import type { PassesFault } from './counting/passesEstimate.ts';

/** Why something about the animals in the tubs was not written. */
export type ColonyFault =
  | { readonly kind: 'tub-in-use'; readonly tub: string; readonly saleable: number }
  | {
      readonly kind: 'ask-relabel';
      readonly tub: string;
      readonly from: string;
      readonly to: string;
      readonly saleable: number;
    }
  | { readonly kind: 'same-tub'; readonly tub: string }
  | { readonly kind: 'not-held'; readonly tub: string }
  | {
      readonly kind: 'too-few-there';
      readonly tub: string;
      readonly number: number;
      readonly there: number;
      readonly countedAt: Instant;
    }
  | {
      readonly kind: 'ask-mix-lines';
      readonly from: string;
      readonly fromLine: string;
      readonly to: string;
      readonly toLine: string;
      readonly number: number;
    }
  | { readonly kind: 'ask-many'; readonly tub: string; readonly number: number; readonly litres: number }
  /** Removal passes that tell no number of animals. */
  | {
      readonly kind: 'passes-tell-nothing';
      readonly tub: string;
      readonly catches: readonly number[];
      readonly fault: PassesFault;
    }
  | { readonly kind: 'pass-left-out' }
  | { readonly kind: 'not-counted'; readonly line: string; readonly tubs: readonly string[] };
