import type { Instant, LocalDay } from '../day.ts';
import type { DispatchReason } from '../dispatch/reason.ts';
import type { SaleState, Settlement } from './sale.ts';

/** Why something about a sale, its parcel or its claim was not written. */
export type SaleFault =
  | {
      readonly kind: 'not-enough';
      readonly what: string;
      readonly asked: number;
      readonly extras: number;
      readonly free: number;
      readonly fits: number;
      readonly fitsExtras: number;
      /** The sale that is there already; null: a new one. */
      readonly sale: number | null;
      /** The whole order with the numbers that fit; null: nothing fits. */
      readonly mended: string | null;
    }
  | {
      readonly kind: 'not-enough-goods';
      readonly what: string;
      readonly asked: number;
      readonly free: number;
      readonly sale: number | null;
      readonly mended: string | null;
    }
  | { readonly kind: 'too-few-goods'; readonly what: string; readonly out: number; readonly there: number }
  | {
      readonly kind: 'unknown-items';
      readonly understood: readonly string[];
      readonly unknown: readonly {
        readonly typed: string;
        readonly near: readonly string[];
        readonly why: 'no-such-name' | 'no-number' | 'bad-number' | 'no-name';
      }[];
      readonly mended: string | null;
    }
  | {
      readonly kind: 'sale-state';
      readonly sale: number;
      readonly state: SaleState;
      readonly wanted: string;
      readonly at: Instant | null;
      readonly by: string | null;
    }
  | {
      readonly kind: 'ask-sent-already';
      readonly sale: number;
      readonly at: Instant;
      readonly by: string;
      readonly tracking: string | null;
      /** The number that was typed now; null: none. */
      readonly newTracking: string | null;
    }
  | {
      readonly kind: 'ask-paid-already';
      readonly sale: number;
      readonly at: Instant;
      readonly by: string;
      /** Still to be paid, minor units; null: no price is known. */
      readonly openMinor: number | null;
    }
  | { readonly kind: 'ask-unpaid'; readonly sale: number; readonly priceMinor: number | null }
  | {
      readonly kind: 'ask-not-safe';
      readonly sale: number;
      readonly day: LocalDay;
      readonly reasons: readonly DispatchReason[];
      readonly next: LocalDay | null;
    }
  /** The tubs hold fewer than the parcel takes, so the books would not add up. */
  | {
      readonly kind: 'ask-short';
      readonly sale: number;
      readonly short: readonly { readonly what: string; readonly asked: number; readonly there: number }[];
    }
  | {
      readonly kind: 'claim-open';
      readonly sale: number;
      readonly dead: number;
      readonly at: Instant;
      readonly by: string;
    }
  | {
      readonly kind: 'claim-settled';
      readonly sale: number;
      readonly how: Settlement;
      readonly amountMinor: number;
      readonly at: Instant;
      readonly by: string;
    }
  | { readonly kind: 'no-claim'; readonly sale: number }
  | {
      readonly kind: 'refund-too-large';
      readonly sale: number;
      readonly amountMinor: number;
      readonly paidMinor: number;
    }
  | { readonly kind: 'no-good-day'; readonly sale: number }
  | { readonly kind: 'same-day'; readonly sale: number; readonly day: LocalDay }
  | { readonly kind: 'nothing-paid'; readonly sale: number; readonly openMinor: number | null }
  | {
      readonly kind: 'arrived-before-sent';
      readonly sale: number;
      readonly sentAt: Instant;
      readonly deliveredAt: Instant;
    };
