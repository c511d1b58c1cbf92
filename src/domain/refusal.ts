import type { ForecastFault } from './colony/forecastFault.ts';
import type { ColonyFault } from './colony/refusal.ts';
import type { Instant, LocalDay } from './day.ts';
import type { MoneyFault } from './money/refusal.ts';
import type { SaleFault } from './sales/refusal.ts';
import type { WaitingFault } from './sales/waiting.ts';
import type { WaterFault } from './water/refusal.ts';

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
  | WaterFault
  | ColonyFault
  | SaleFault
  | MoneyFault
  | WaitingFault
  | ForecastFault
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
