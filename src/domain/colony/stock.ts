import type { Instant } from '../day.ts';
import type { Line, Tub } from '../tub.ts';

/** What happened to the saleable animals of a tub since it was counted. */
export interface TubStock {
  readonly tub: Tub;
  /** Null: not counted yet. */
  readonly counted: { readonly saleable: number; readonly at: Instant; readonly by: string } | null;
  /** Saleable now: last count less what was sold, lost or moved out since, and more what was moved in; never below 0. Null: not counted. */
  readonly saleable: number | null;
  readonly offSale: { readonly reason: string; readonly until: string | null } | null;
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

/** Saleable animals of a tub by its last count and what happened since. */
export function saleableNow(
  counted: number,
  since: { readonly sold: number; readonly lost: number; readonly movedIn: number; readonly movedOut: number },
): number {
  return Math.max(0, counted - since.sold - since.lost - since.movedOut + since.movedIn);
}

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
