import type { Instant, LocalDay } from '../day.ts';

/** Why something about money, exports or forgetting was not done. */
export type MoneyFault =
  /** The same amount of the same kind was logged for that day already. */
  | {
      readonly kind: 'ask-cost-twice';
      readonly amountMinor: number;
      readonly what: string;
      readonly at: Instant;
      readonly by: string;
    }
  | { readonly kind: 'bad-span'; readonly from: LocalDay; readonly to: LocalDay }
  /** A buyer whose orders are not over can't be forgotten: parcels to send, claims to answer. */
  | {
      readonly kind: 'buyer-open';
      readonly buyer: string;
      readonly sales: readonly number[];
      readonly claims: readonly number[];
    }
  | { readonly kind: 'cannot-undo'; readonly summary: string };
