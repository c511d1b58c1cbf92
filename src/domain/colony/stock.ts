import type { Instant, LocalDay } from '../day.ts';
import type { CountMethod, Hold, Line, Logged, StockCount, Tub } from '../tub.ts';
import { freeToPromise, sharpestCount } from './model/free.ts';
import { type Range, rangeOf } from './model/range.ts';

/** A tub's saleable animals, and whether it is off sale. */
export interface TubStock {
  readonly tub: Tub;
  /** The last count; null: not counted yet. */
  readonly counted: {
    readonly saleable: number;
    readonly method: CountMethod;
    readonly at: Instant;
    readonly by: string;
  } | null;
  /** Saleable animals: what is likeliest, whole. Null: not counted. */
  readonly saleable: number | null;
  /** Their 80 % range; null: not counted. */
  readonly range: Range | null;
  /** Saleable animals in each member of the ensemble; null: not counted. */
  readonly members: ArrayLike<number> | null;
  readonly offSale: { readonly reason: string; readonly until: LocalDay | null } | null;
}

/** A line's stock: what there is, what is kept, what may be promised. */
export interface LineStock {
  readonly line: Line;
  readonly tubs: readonly TubStock[];
  /** Saleable over all tubs in use, off-sale tubs and tubs kept apart included. */
  readonly saleable: Range;
  readonly heldBack: number;
  readonly promised: number;
  readonly promisedExtras: number;
  readonly offSale: number;
  /** Surely free to promise: can be negative when the colony shrank under what was promised. */
  readonly free: number;
  /** What is free, 80 % range; its low end is `free`. */
  readonly freeRange: Range;
  readonly uncounted: readonly string[];
  /** The tub whose count would narrow what is free most, and the share of the doubt that would go; null: there is hardly any. */
  readonly sharpest: { readonly tub: Tub; readonly share: number } | null;
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

/** Whether a tub may give animals on that day: counted, on sale and not kept apart. */
export const mayGive = ({ tub, members, offSale }: TubStock): boolean =>
  members !== null && offSale === null && tub.role !== 'apart';

/** Animals that a tub likely can give: what is above its breeders, none while it is off sale or kept apart or not counted. */
export const spareOf = (stock: TubStock, line: Line): number =>
  mayGive(stock) ? Math.max(0, (stock.saleable ?? 0) - line.holdBack) : 0;

/** What a tub holds by its members. */
export function countedStock(
  tub: Tub,
  counted: TubStock['counted'],
  members: ArrayLike<number>,
  offSale: TubStock['offSale'],
): TubStock {
  const range = rangeOf(members);
  return { tub, counted, saleable: range.median, range, members, offSale };
}

/** Less doubt than this, in animals between the 10 and the 90 % quantile, no count is worth. */
const hardlyDoubt = 6;

/**
 * Free to promise = lower 10 % quantile of Σ over tubs max(0, saleable − held back), taken inside each member, less what is promised with extras. A
 * poor tub owes nothing to a rich one, and a tub off sale gives nothing.
 */
export function lineStock(line: Line, tubs: readonly TubStock[], promised: number, promisedExtras: number): LineStock {
  const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0);
  const giving = tubs.filter(mayGive);
  const shut = tubs.filter((tub) => tub.members !== null && !mayGive(tub));
  const membersOf = ({ members }: TubStock): Float32Array => Float32Array.from(members ?? []);
  const { free, low, median, high } = freeToPromise(giving.map(membersOf), line.holdBack, promised + promisedExtras);
  const sharpest =
    high - low < hardlyDoubt
      ? null
      : sharpestCount(
          giving.map((stock) => ({ tub: stock.tub, saleable: membersOf(stock) })),
          line.holdBack,
        );
  return {
    line,
    tubs,
    saleable: totalOf(tubs.flatMap((tub) => (tub.members === null ? [] : [membersOf(tub)]))),
    heldBack: sum(giving.map(({ saleable }) => Math.min(saleable ?? 0, line.holdBack))),
    promised,
    promisedExtras,
    offSale: sum(shut.map(({ saleable }) => saleable ?? 0)),
    free,
    freeRange: { low, median, high },
    uncounted: tubs.filter((tub) => tub.members === null).map(({ tub }) => tub.name),
    sharpest,
  };
}

/** Animals of several tubs together, the sum taken inside each member. */
function totalOf(tubs: readonly Float32Array[]): Range {
  const [first] = tubs;
  if (first === undefined) return { low: 0, median: 0, high: 0 };
  return rangeOf(first.map((_, member) => tubs.reduce((total, members) => total + (members[member] ?? 0), 0)));
}
