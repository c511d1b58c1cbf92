import {
  addDays,
  dayOf,
  type Instant,
  instantAt,
  type LocalDay,
  minuteMs,
  msOf,
  plusMs,
  timeOf,
  type WallTime,
} from '../day.ts';
import { isPaid } from './paid.ts';
import type { Sale, SaleState } from './sale.ts';

/**
 * Until when an unpaid sale stays reserved: `keepDays` days after it was added, at the same time of day by the wall clock, but
 * not past the morning of its dispatch day, and never before it was added.
 */
export function keptUntil(terms: {
  readonly addedAt: Instant;
  readonly keepDays: number;
  readonly dispatchOn: LocalDay | null;
  readonly zone: string;
  readonly morningAt: WallTime;
}): Instant {
  const { addedAt, keepDays, dispatchOn, zone, morningAt } = terms;
  const sameTime = instantAt(addDays(dayOf(addedAt, zone), keepDays), timeOf(addedAt, zone), zone);
  const afterDays = plusMs(sameTime, msOf(addedAt) % minuteMs);
  const morning = dispatchOn === null ? afterDays : instantAt(dispatchOn, morningAt, zone);
  // Instants sort as text.
  const [end = afterDays] = [afterDays, morning].sort();
  if (end < addedAt) return addedAt;
  return end;
}

/**
 * What a sale is at `now`, from what was logged of it; at the very moment `keptUntil` an unpaid one has lapsed, one that is paid in part
 * does not lapse.
 */
export function saleState(
  sale: Pick<
    Sale,
    'keptUntil' | 'priceMinor' | 'postageMinor' | 'paidMinor' | 'paidAt' | 'sentAt' | 'arrival' | 'cancelled'
  >,
  now: Instant,
): SaleState {
  if (sale.cancelled !== null) return 'cancelled';
  if (sale.arrival !== null) return 'arrived';
  if (sale.sentAt !== null) return 'sent';
  if (isPaid(sale)) return 'paid';
  return sale.paidAt !== null || now < sale.keptUntil ? 'kept' : 'lapsed';
}
