import type { Sale, SaleItem } from '../sales/sale.ts';

/** A sale that left, with what its promise came to. */
export interface PromisedParcel {
  readonly items: readonly SaleItem[];
  /** Money given back for it, minor units; 0: none. */
  readonly refundMinor: number;
  /** The sale that sent again what was short; null: none. */
  readonly resend: Pick<Sale, 'items'> | null;
}

/** What the promise to arrive alive cost over some parcels, minor units. */
export interface GuaranteeCost {
  readonly parcels: number;
  readonly refundsMinor: number;
  /** Animals sent again, at the prices at which they were sold; their extras are among the extras, postage is not known. */
  readonly resendsMinor: number;
  /** Animals beyond what was ordered, at those prices: what they would have brought. */
  readonly extrasMinor: number;
  readonly totalMinor: number;
  /** Rounded to the nearest; null: no parcel. */
  readonly perParcelMinor: number | null;
  /** Animals sent again or as extras that no price is known of, not in the sums. */
  readonly unpriced: number;
}

/** Refunds, resends and extras of parcels that left, at price; a parcel that is itself a resend is told with the one it makes good. */
export function guaranteeCost(parcels: readonly PromisedParcel[]): GuaranteeCost {
  const sent = parcels.flatMap(({ items }) => items);
  const again = parcels.flatMap(({ resend }) => resend?.items ?? []);
  const resends = worthOf(again, ({ number }) => number);
  const extras = worthOf([...sent, ...again], ({ extras: number }) => number);
  const refundsMinor = parcels.reduce((sum, { refundMinor }) => sum + refundMinor, 0);
  const totalMinor = refundsMinor + resends.minor + extras.minor;
  return {
    parcels: parcels.length,
    refundsMinor,
    resendsMinor: resends.minor,
    extrasMinor: extras.minor,
    totalMinor,
    perParcelMinor: parcels.length === 0 ? null : Math.round(totalMinor / parcels.length),
    unpriced: resends.unpriced + extras.unpriced,
  };
}

function worthOf(
  items: readonly SaleItem[],
  numberOf: (item: SaleItem) => number,
): { minor: number; unpriced: number } {
  let minor = 0;
  let unpriced = 0;
  for (const item of items) {
    if (item.of !== 'line') continue;
    if (item.priceMinor === null) unpriced += numberOf(item);
    else minor += item.priceMinor * numberOf(item);
  }
  return { minor, unpriced };
}
