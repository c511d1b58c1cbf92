import { leastSplit } from './leastSplit.ts';
import type { Catch } from './sale.ts';

/** A tub that may be caught from: not off sale, not retired, not kept apart. */
export interface SpareTub {
  readonly tubId: number;
  readonly name: string;
  readonly rack: string;
  readonly lineId: number;
  /** Saleable less the breeders held back, animals; what is not over 0 is left alone. */
  readonly spare: number;
  /** Saleable animals, breeders among them, and the water that they are in, over 0 L. */
  readonly saleable: number;
  readonly netLitres: number;
}

/** Animals of a line that a parcel needs, extras included. */
export interface Demand {
  readonly lineId: number;
  readonly number: number;
}

/** More asked of a line than its tubs can spare. */
export interface Shortfall {
  readonly lineId: number;
  readonly asked: number;
  readonly there: number;
}

/** A parcel's catches, and what it lacks; a line that is short is not caught at all, so that others may have it. */
export interface ParcelCatches {
  readonly saleId: number;
  readonly catches: readonly Catch[];
  readonly short: readonly Shortfall[];
}

/** How crowded a tub is: saleable animals a litre. */
export const animalsPerLitre = ({ saleable, netLitres }: Pick<SpareTub, 'saleable' | 'netLitres'>): number =>
  saleable / netLitres;

/**
 * The tubs to net for a number of animals of one line: as few as can be, and of all such choices the one with the most crowded tub in it,
 * then with the next most crowded, and so on. Exact: a tub is taken, in that order, whenever the fewest tubs can still be kept to with it.
 * @param tubs of one line, together with at least `number` to spare
 * @returns the most crowded first; alike ones by rack and name
 */
export function tubsToNet(number: number, tubs: readonly SpareTub[]): SpareTub[] {
  const order = tubs.filter(({ spare }) => spare > 0).sort(mostCrowdedFirst);
  const fewest = countNeeded(number, order);
  const chosen: SpareTub[] = [];
  let left = number;
  order.forEach((tub, index) => {
    const others = fewest - chosen.length - 1;
    if (others < 0 || mostOf(order.slice(index + 1), others) < left - tub.spare) return;
    chosen.push(tub);
    left -= tub.spare;
  });
  return chosen;
}

/** How many tubs it takes when those with the most to spare are netted. */
function countNeeded(number: number, tubs: readonly SpareTub[]): number {
  let count = 0;
  while (count < tubs.length && mostOf(tubs, count) < number) count += 1;
  return count;
}

/** The most that so many of the tubs can spare together. */
const mostOf = (tubs: readonly SpareTub[], count: number): number =>
  tubs
    .map(({ spare }) => spare)
    .sort((a, b) => b - a)
    .slice(0, count)
    .reduce((sum, spare) => sum + spare, 0);

/**
 * The catches of a whole day. Parcels get their animals in the order given, each line of one in full or not at all; then each line's tubs
 * are chosen for all of them together (`tubsToNet`), and the parcels laid into them with as few as can be caught from two tubs
 * (`leastSplit`). Breeders stay, as only what is spare is caught.
 */
export function allocateDay(
  parcels: readonly { readonly saleId: number; readonly demands: readonly Demand[] }[],
  tubs: readonly SpareTub[],
): ParcelCatches[] {
  const asked = parcels.map(({ demands }) => together(demands));
  const lines = [...new Set(asked.flatMap((demands) => demands.map(({ lineId }) => lineId)))];
  const plans = new Map(lines.map((lineId) => [lineId, allocateLine(lineId, asked, tubs)]));
  return parcels.map(({ saleId }, index) => {
    const own = (asked[index] ?? []).map(({ lineId }) => plans.get(lineId)?.[index]);
    return {
      saleId,
      catches: own.flatMap((part) => part?.catches ?? []),
      short: own.flatMap((part) => part?.short ?? []),
    };
  });
}

type LinePart = Pick<ParcelCatches, 'catches' | 'short'>;

/** The catches of one line, parcel by parcel. */
function allocateLine(lineId: number, asked: readonly (readonly Demand[])[], tubs: readonly SpareTub[]): LinePart[] {
  const mine = tubs.filter((tub) => tub.lineId === lineId && tub.spare > 0);
  let there = mine.reduce((sum, { spare }) => sum + spare, 0);
  const parts = asked.map((demands): { readonly number: number; readonly short: Shortfall[] } => {
    const number = demands.find((demand) => demand.lineId === lineId)?.number ?? 0;
    if (number > there) return { number: 0, short: [{ lineId, asked: number, there }] };
    there -= number;
    return { number, short: [] };
  });
  const numbers = parts.map(({ number }) => number);
  const netted = tubsToNet(
    numbers.reduce((sum, number) => sum + number, 0),
    mine,
  );
  const laid = leastSplit(
    numbers,
    netted.map(({ spare }) => spare),
  );
  return parts.map(({ short }, index) => ({
    short,
    catches: (laid[index] ?? []).flatMap((number, at) => {
      const tub = netted[at];
      return number === 0 || tub === undefined ? [] : [{ tubId: tub.tubId, lineId, number }];
    }),
  }));
}

/** One demand a line: two rows of the same line in an order are caught together. */
function together(demands: readonly Demand[]): Demand[] {
  const sums = new Map<number, number>();
  for (const { lineId, number } of demands) sums.set(lineId, (sums.get(lineId) ?? 0) + number);
  return [...sums].map(([lineId, number]) => ({ lineId, number }));
}

const mostCrowdedFirst = (a: SpareTub, b: SpareTub): number =>
  animalsPerLitre(b) - animalsPerLitre(a) || byName(a.rack, b.rack) || byName(a.name, b.name);

const byName = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true });
