import type { Instant, LocalDay } from '../day.ts';
import type { CountMethod, Hold, Line, Logged, StockCount, Tub } from '../tub.ts';

/** A tub's saleable animals, and whether it is off sale. */
export interface TubStock {
  readonly tub: Tub;
  /** Null: not counted yet. */
  readonly counted: {
    readonly saleable: number;
    readonly method: CountMethod;
    readonly at: Instant;
    readonly by: string;
  } | null;
  /** Saleable now: last count less what was sold, lost or moved out since, and more what was moved in; never below 0. Null: not counted. */
  readonly saleable: number | null;
  readonly offSale: { readonly reason: string; readonly until: LocalDay | null } | null;
}

/** A line's stock: what there is, what is kept, what may be promised. */
export interface LineStock {
  readonly line: Line;
  readonly tubs: readonly TubStock[];
  /** Saleable over all tubs in use, off-sale tubs and tubs kept apart included. */
  readonly saleable: number;
  readonly heldBack: number;
  readonly promised: number;
  readonly promisedExtras: number;
  readonly offSale: number;
  /** May be promised now; can be negative when the colony shrank under what was promised. */
  readonly free: number;
  readonly uncounted: readonly string[];
}

/** Animals that came into a tub or left it at a moment; of the same moment, the one logged later came later. */
export interface StockStep extends Pick<Logged, 'at' | 'entryId'> {
  readonly number: number;
}

/** The saleable animals of a tub that came and left: moved in; sent, lost and moved out. */
export interface StockSteps {
  readonly came: readonly StockStep[];
  readonly left: readonly StockStep[];
}

/**
 * Saleable animals of a tub by a count and what came and left after it, never below 0.
 * @param upTo what happened later than this is passed over; by default nothing is
 */
export function saleableBy(count: StockCount, { came, left }: StockSteps, upTo?: Instant): number {
  const isBetween = ({ at, entryId }: StockStep): boolean =>
    (at > count.at || (at === count.at && entryId > count.entryId)) && (upTo === undefined || at <= upTo);
  const sum = (steps: readonly StockStep[]): number =>
    steps.filter(isBetween).reduce((total, { number }) => total + number, 0);
  return Math.max(0, count.saleable + sum(came) - sum(left));
}

/** The hold that keeps a tub off sale on a day, its last day included; null: it is on sale. */
export const offSaleOn = (hold: Hold | undefined, day: LocalDay): TubStock['offSale'] =>
  hold !== undefined && (hold.until === null || hold.until >= day) ? { reason: hold.reason, until: hold.until } : null;

/** Animals that a tub can give: what is above its breeders, none while it is off sale or kept apart or not counted. */
export function spareOf({ tub, saleable, offSale }: TubStock, line: Line): number {
  if (saleable === null || offSale !== null || tub.role === 'apart') return 0;
  return Math.max(0, saleable - line.holdBack);
}

/**
 * Free to promise = Σ over tubs max(0, saleable − held back) − promised with extras. A poor tub owes nothing to a rich one, and a
 * tub off sale gives nothing.
 */
export function lineStock(line: Line, tubs: readonly TubStock[], promised: number, promisedExtras: number): LineStock {
  const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0);
  const known = tubs.filter((tub) => tub.saleable !== null);
  const isShut = ({ offSale, tub }: TubStock): boolean => offSale !== null || tub.role === 'apart';
  const spare = sum(tubs.map((tub) => spareOf(tub, line)));
  const open = known.filter((tub) => !isShut(tub));
  return {
    line,
    tubs,
    saleable: sum(known.map(({ saleable }) => saleable ?? 0)),
    heldBack: sum(open.map(({ saleable }) => Math.min(saleable ?? 0, line.holdBack))),
    promised,
    promisedExtras,
    offSale: sum(known.filter(isShut).map(({ saleable }) => saleable ?? 0)),
    free: spare - promised - promisedExtras,
    uncounted: tubs.filter((tub) => tub.saleable === null).map(({ tub }) => tub.name),
  };
}
