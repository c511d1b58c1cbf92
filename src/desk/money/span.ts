import { addDays, type Instant, instantAt, type Period, type WallTime } from '../../domain/index.ts';
import { businessOf, type Desk } from '../desk.ts';

const midnight = '00:00' as WallTime;

/** From when up to when some days last in the business's zone. */
export function spanOf(desk: Desk, { first, last }: Period): { readonly from: Instant; readonly to: Instant } {
  const { zone } = businessOf(desk);
  return { from: instantAt(first, midnight, zone), to: instantAt(addDays(last, 1), midnight, zone) };
}
