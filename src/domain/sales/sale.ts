import type { Instant, LocalDay } from '../day.ts';
import type { Logged } from '../tub.ts';

/** One row of an order: animals of one line, or pieces of one kind of goods. */
export type SaleItem = {
  readonly id: number;
  readonly name: string;
  readonly number: number;
  /** Of one, by the list when it was sold, minor units; null: none was set then, or nobody can know any more. */
  readonly priceMinor: number | null;
} & ({ readonly of: 'line'; readonly extras: number } | { readonly of: 'goods'; readonly extras: 0 });

/**
 * kept: reserved, not paid in full, within its time or with a part paid · lapsed: unpaid and no longer reserved · paid: in full, reserved
 * until sent · sent: on the way · arrived: the buyer has it · cancelled: given up.
 */
export const saleStates = ['kept', 'lapsed', 'paid', 'sent', 'arrived', 'cancelled'] as const;
export type SaleState = (typeof saleStates)[number];

/** An order as it stands now. Money in minor units of the business's currency. */
export interface Sale {
  /** Its number, as people say it ("sale 41"). */
  readonly id: number;
  readonly entryId: number;
  readonly buyer: string | null;
  readonly area: string | null;
  readonly region: string | null;
  readonly items: readonly SaleItem[];
  readonly dispatchOn: LocalDay | null;
  readonly priceMinor: number | null;
  readonly postageMinor: number;
  readonly outlet: string | null;
  readonly keptUntil: Instant;
  readonly paidMinor: number;
  /** When the first payment came; a later one does not move the parcel back in the order of packing. */
  readonly paidAt: Instant | null;
  readonly sentAt: Instant | null;
  readonly tracking: string | null;
  readonly arrival: Arrival | null;
  readonly claim: Claim | null;
  readonly cancelled: { readonly at: Instant; readonly reason: string } | null;
  readonly by: string;
  readonly addedAt: Instant;
}

/** Where the animals of a parcel were caught. */
export interface Catch {
  readonly tubId: number;
  readonly lineId: number;
  readonly number: number;
}

/** A sale on its way, as sent. */
export interface Parcel extends Logged {
  readonly saleId: number;
  readonly tracking: string | null;
  readonly catches: readonly Catch[];
}

/** How a parcel arrived. */
export interface Arrival extends Logged {
  readonly saleId: number;
  readonly deliveredAt: Instant;
  readonly dead: number;
  readonly photo: string | null;
}

export const settlements = ['refund', 'resend', 'decline'] as const;
export type Settlement = (typeof settlements)[number];

export interface Claim extends Logged {
  readonly saleId: number;
  readonly dead: number;
  readonly photo: string | null;
  readonly note: string | null;
  readonly settled: {
    readonly how: Settlement;
    readonly amountMinor: number;
    readonly at: Instant;
    readonly by: string;
  } | null;
}

/** Moss, leaves, boxes, bags. */
export interface Goods {
  readonly id: number;
  readonly name: string;
  readonly priceMinor: number | null;
  readonly stock: number;
  /** The line whose young it may carry. */
  readonly lineId: number | null;
  readonly lineName: string | null;
  readonly keepAtLeast: number;
}

/** A selling place and what it takes. */
export interface Outlet {
  readonly id: number;
  readonly name: string;
  readonly percent: number;
  readonly fixedMinor: number;
  readonly onPostage: boolean;
}

/** A forecast for a place on a day: the night's low and the day's high of the air. */
export interface Weather {
  readonly day: LocalDay;
  readonly area: string;
  readonly lowC: number;
  readonly highC: number;
  readonly at: Instant;
  readonly by: string;
}
