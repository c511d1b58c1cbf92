import type { Outlet } from '../sales/sale.ts';

export type OutletFees = Pick<Outlet, 'percent' | 'fixedMinor' | 'onPostage'>;

/** Parts of a whole in one per cent, to four decimals of it: as fine as any place states its fees. */
const partsPerPercent = 10_000;
const whole = 100 * partsPerPercent;

/**
 * What a selling place takes of what came for one sale so far: per cent of the goods, of the postage too where it charges that, and a fixed
 * amount once. Minor units, a half rounded up; nothing where nothing came.
 * @param taken whole minor units, 0 and up
 */
export function feeMinor(
  fees: OutletFees,
  taken: { readonly itemsMinor: number; readonly postageMinor: number },
): number {
  if (taken.itemsMinor + taken.postageMinor === 0) return 0;
  const baseMinor = taken.itemsMinor + (fees.onPostage ? taken.postageMinor : 0);
  const parts = Math.round(fees.percent * partsPerPercent);
  return Number((2n * BigInt(baseMinor) * BigInt(parts) + BigInt(whole)) / BigInt(2 * whole)) + fees.fixedMinor;
}
