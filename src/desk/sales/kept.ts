import {
  addDays,
  type Business,
  dayOf,
  type Instant,
  instantAt,
  keptUntil,
  type LocalDay,
  type WallTime,
} from '../../domain/index.ts';

const midnight = '00:00' as WallTime;

/**
 * Until when a sale that is reserved at `from` stays so without payment: the days of the terms, not past the morning of its dispatch
 * day. Where that has passed already (sold on the morning it is to leave), the rest of the day.
 */
export function keptFrom(business: Business, from: Instant, dispatchOn: LocalDay | null): Instant {
  const { keepDays, zone, morningAt } = business;
  const until = keptUntil({ addedAt: from, keepDays, dispatchOn, zone, morningAt });
  return until > from ? until : instantAt(addDays(dayOf(from, zone), 1), midnight, zone);
}
