import type { Catch, Demand, ParcelCheck } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import type { Desk } from '../desk.ts';

/** What was checked about a parcel that still stands: for its day or a later one, so that moving it to a later day starts anew. */
export const standingChecks = (desk: Desk, { id, dispatchOn }: BookedSale): ParcelCheck[] =>
  desk.store.parcelChecks.of(id).filter(({ forDay }) => dispatchOn !== null && forDay >= dispatchOn);

/** The catch of a parcel that was ticked as caught, while it is still what the parcel takes; undefined: none. */
export function caughtAlready(desk: Desk, sale: BookedSale, demands: readonly Demand[]): readonly Catch[] | undefined {
  const last = standingChecks(desk, sale)
    .filter(({ step }) => step === 'caught')
    .at(-1);
  return last !== undefined && byLine(last.catches) === byLine(demands) ? last.catches : undefined;
}

/** How many of each line, as words that can be compared. */
function byLine(rows: readonly Demand[]): string {
  const sums = new Map<number, number>();
  for (const { lineId, number } of rows) sums.set(lineId, (sums.get(lineId) ?? 0) + number);
  return [...sums]
    .map(([lineId, number]) => `${lineId}:${number}`)
    .sort()
    .join(' ');
}
