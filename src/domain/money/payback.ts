import { type Cost, lastingKinds } from './cost.ts';
import type { Movement, SoldAnimals } from './movement.ts';
import { moneyByLine, moneyTotals } from './totals.ts';
import { perEach } from './yields.ts';

/** Days of a month on average, of the Gregorian calendar's 400 years. */
export const daysPerMonth = 146_097 / 4800;

/** Books shorter than this tell nothing of a month that holds for the year, days (our choice). */
export const leastDays = 90;

/** What one tub of a line nets a month, from what all of them did. */
export interface TubEarnings {
  readonly lineId: number;
  readonly name: string;
  readonly netPerMonthMinor: number;
}

/** The kinds that grow with every parcel and tub: of them each line bears its part, by the animals sold. */
const runningKinds = ['feed', 'packing', 'postage'] as const;

/**
 * What one tub nets a month by line: what the line's animals brought less fees, refunds and its tubs' own running costs, and its part, by
 * animals sold, of the shared feed, packing and postage with the postage that buyers paid; over the months that its tubs were in use.
 * What is bought to last (tubs, gear) is left out, as is goods' money. It holds as far as one more tub sells as the others did.
 * @param tubDays days that tubs of each line were in use in the time that the movements are of
 */
export function tubEarnings(
  movements: readonly Movement[],
  sold: readonly SoldAnimals[],
  tubDays: ReadonlyMap<number, number>,
): TubEarnings[] {
  const lines = moneyByLine(movements, sold);
  const soldInAll = lines.reduce((sum, line) => sum + line.sold, 0);
  const postage = moneyTotals(movements.filter(({ pot }) => pot.of === 'postage'));
  const shared = moneyTotals(movements.filter(({ pot }) => pot.of === 'shared'));
  const runningMinor = runningKinds.reduce((sum, kind) => sum + shared.costsByKind[kind], 0);
  const carriedMinor = postage.netMinor - runningMinor;
  return lines.flatMap(({ lineId, name, netMinor, sold: own }) => {
    const days = tubDays.get(lineId) ?? 0;
    const lastingMinor = movements.reduce(
      (sum, { pot, costKind, minor }) =>
        pot.of === 'line' && pot.id === lineId && costKind !== null && lastingKinds.includes(costKind)
          ? sum + minor
          : sum,
      0,
    );
    const partMinor = perEach(carriedMinor * own, soldInAll) ?? 0;
    const netPerMonthMinor = perEach((netMinor + lastingMinor + partMinor) * daysPerMonth, days);
    return own > 0 && netPerMonthMinor !== null ? [{ lineId, name, netPerMonthMinor }] : [];
  });
}

/** What a new tub cost: all that was spent on tubs and gear with a tub for which a cost of kind tub was logged, per tub; null: none was. */
export function newTubCostMinor(costs: readonly Pick<Cost, 'amountMinor' | 'kind' | 'tub'>[]): number | null {
  const bought = new Set(costs.flatMap(({ kind, tub }) => (kind === 'tub' && tub !== null ? [tub.id] : [])));
  const spentMinor = costs.reduce(
    (sum, { amountMinor, kind, tub }) =>
      tub !== null && bought.has(tub.id) && lastingKinds.includes(kind) ? sum + amountMinor : sum,
    0,
  );
  return perEach(spentMinor, bought.size);
}

/** Months until what a tub nets has paid what it cost, whole and rounded up; null: never. */
export const paybackMonths = (costMinor: number, netPerMonthMinor: number): number | null =>
  netPerMonthMinor > 0 ? Math.ceil(costMinor / netPerMonthMinor) : null;
