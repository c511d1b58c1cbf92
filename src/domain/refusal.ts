import type { PassesFault } from './colony/counting/passesEstimate.ts';
import type { ForecastFault } from './colony/forecastFault.ts';
import type { Instant, LocalDay } from './day.ts';
import type { DispatchReason } from './dispatch/reason.ts';
import type { MoneyFault } from './money/refusal.ts';
import type { SaleState, Settlement } from './sales/sale.ts';
import type { WaitingFault } from './sales/waiting.ts';
import type { WaterValueName } from './tub.ts';
import type { Mended } from './water/possible.ts';

/** Things that people call by name or number. */
export type Noun =
  | 'tub'
  | 'line'
  | 'sale'
  | 'goods'
  | 'outlet'
  | 'chore'
  | 'partner'
  | 'window'
  | 'entry'
  | 'buyer'
  | 'rack'
  | 'area';

/** Whole or decimal amounts that people type, beside the water values. */
export type AmountName =
  | 'litres'
  | 'net litres'
  | 'percent'
  | 'animals'
  | 'saleable'
  | 'juveniles'
  | 'berried'
  | 'pass 1'
  | 'pass 2'
  | 'pass 3'
  | 'pass 4'
  | 'price'
  | 'postage'
  | 'amount'
  | 'saleable-mm'
  | 'hold-back'
  | 'days'
  | 'months'
  | 'minutes'
  | 'interval'
  | 'share'
  | 'transit-days'
  | 'slack-days'
  | 'dead'
  | 'pieces'
  | 'low'
  | 'high'
  | 'source-nitrate'
  | 'source-tds'
  | 'source-gh'
  | 'source-kh'
  | 'target-gh'
  | 'target-kh'
  | 'target-tds'
  | 'target-nitrate'
  | 'salt-gh'
  | 'salt-kh'
  | 'bucket'
  | 'jug'
  | 'altitude'
  | 'nitrate-limit'
  | 'keep-days'
  | 'claim-hours'
  | 'full-order-level';

/**
 * Why something was not written. Each kind carries the figures needed to say it; the words are in reply/refusals.ts, where a
 * kind without words does not compile. Kinds named `ask-…` are questions: the same entry goes through once it is confirmed.
 */
export type Refusal =
  | { readonly kind: 'unknown'; readonly noun: Noun; readonly typed: string; readonly near: readonly string[] }
  | { readonly kind: 'ambiguous'; readonly noun: Noun; readonly typed: string; readonly near: readonly string[] }
  | { readonly kind: 'name-taken'; readonly noun: Noun; readonly name: string }
  | { readonly kind: 'bad-name'; readonly noun: Noun; readonly typed: string }
  | { readonly kind: 'bad-range'; readonly typed: string; readonly most: number }
  | { readonly kind: 'nothing-given'; readonly what: string }
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
  | {
      readonly kind: 'impossible-amount';
      readonly amount: AmountName;
      readonly typed: number;
      readonly min: number;
      readonly max: number;
      readonly whole: boolean;
    }
  | {
      readonly kind: 'bad-words';
      readonly what:
        | 'when'
        | 'day'
        | 'month-day'
        | 'month'
        | 'items'
        | 'time'
        | 'weekdays'
        | 'region'
        | 'time zone'
        | 'currency'
        | 'kit steps';
      readonly typed: string;
      readonly example: string;
    }
  /** A date that is well formed and in no calendar: 31 Feb, or 29 Feb of a year without. */
  | { readonly kind: 'no-such-date'; readonly typed: string }
  | { readonly kind: 'in-the-future'; readonly at: Instant }
  | { readonly kind: 'too-long-ago'; readonly at: Instant; readonly since: LocalDay }
  | { readonly kind: 'past-day'; readonly day: LocalDay; readonly today: LocalDay }
  | { readonly kind: 'tub-retired'; readonly tub: string; readonly at: Instant }
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
  | { readonly kind: 'not-counted'; readonly line: string; readonly tubs: readonly string[] }
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
  | MoneyFault
  | WaitingFault
  | ForecastFault
  | {
      readonly kind: 'arrived-before-sent';
      readonly sale: number;
      readonly sentAt: Instant;
      readonly deliveredAt: Instant;
    }
  | { readonly kind: 'done-already'; readonly what: string; readonly at: Instant; readonly by: string }
  | { readonly kind: 'nothing-due'; readonly chore: string }
  | { readonly kind: 'which-target'; readonly chore: string; readonly targets: readonly string[] }
  | { readonly kind: 'nothing-to-undo' }
  | { readonly kind: 'voided-already'; readonly summary: string; readonly at: Instant; readonly by: string }
  | { readonly kind: 'others-rest-on-it'; readonly summary: string; readonly later: readonly string[] }
  | { readonly kind: 'not-yours'; readonly summary: string; readonly by: string }
  | { readonly kind: 'owner-only'; readonly what: string }
  | { readonly kind: 'last-owner'; readonly name: string }
  | { readonly kind: 'not-a-person'; readonly name: string }
  | { readonly kind: 'photo-not-kept'; readonly cause: string }
  | { readonly kind: 'clock-back'; readonly to: Instant; readonly now: Instant };
