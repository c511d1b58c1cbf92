import type { Crew } from './crew.ts';
import { makeEasier } from './easier.ts';
import { makeFairer } from './fairer.ts';
import { giveDays, giveRacks, mostOwed } from './firstSplit.ts';
import { type Handing, openHanding } from './handing.ts';
import { leastUnfair } from './leastUnfair.ts';
import type { DoneWork, Owed } from './owed.ts';
import type { Piece } from './piece.ts';
import { unfairBound } from './unfairBound.ts';

/** Who does each piece. */
export interface Split {
  /** By piece, the place of the partner. */
  readonly owner: ArrayLike<number>;
  /** The largest distance between what a partner is given and owes, minutes. */
  readonly unfairMinutes: number;
  /** No split of these pieces comes nearer than this. */
  readonly atLeastMinutes: number;
}

/** A split that was told is kept where nobody is off by more than this over the whole plan, minutes (our choice). */
const fairEnough = 5;

/**
 * Gives each piece to a partner: first the largest distance between what a partner is given and owes as small as can be; among such splits
 * one that keeps a rack with one partner, each day near the shares, and a partner to one end of the rack, made better by small changes
 * until none helps. A split that was told changes only where that is worth it, or somebody is off by more than five minutes.
 *
 * @param pieces  in rack order, each with somebody who may do it
 */
export function split(pieces: readonly Piece[], crew: Crew, owed: Owed, done: readonly DoneWork[]): Split {
  const bound = unfairBound(pieces, owed);
  const anew = (begin: (handing: Handing) => void): Handing => {
    const handing = openHanding(pieces, crew, owed, done);
    begin(handing);
    makeFairer(handing, bound);
    return handing;
  };
  const [byDay, byRack] = [anew((handing) => giveDays(handing, owed)), anew((handing) => giveRacks(handing, owed))];
  const fairest = byRack.unfair() < byDay.unfair() - 1e-9 ? byRack : byDay;
  const isBound = fairest.unfair() <= bound + 1e-9;
  const found = isBound ? null : leastUnfair(pieces, owed, fairest.unfair());
  for (const [index, place] of (found?.owner ?? []).entries()) fairest.give(index, place);
  const unfair = fairest.unfair();
  const atLeastMinutes = isBound || found?.isComplete ? unfair : bound;
  const handing = told(pieces, crew, owed, done, unfair) ?? easiest([byDay, byRack], unfair);
  return { owner: handing.owner, unfairMinutes: handing.unfair(), atLeastMinutes };
}

/** The cheapest of the fairest. */
function easiest(candidates: readonly Handing[], unfair: number): Handing {
  const fair = candidates.filter((one) => one.unfair() <= unfair + 1e-9);
  for (const one of fair) makeEasier(one, unfair);
  return fair.reduce((best, one) => (one.cost() < best.cost() - 1e-6 ? one : best));
}

/** The split that was told, mended; null: none was told, or it stays too unfair. */
function told(
  pieces: readonly Piece[],
  crew: Crew,
  owed: Owed,
  done: readonly DoneWork[],
  unfair: number,
): Handing | null {
  if (pieces.every((piece) => piece.told === null)) return null;
  const handing = openHanding(pieces, crew, owed, done);
  for (const [index, piece] of pieces.entries()) if (piece.told !== null) handing.give(index, piece.told);
  for (const [index, piece] of pieces.entries()) {
    if (piece.told === null) handing.give(index, mostOwed(handing, owed, piece));
  }
  const allowed = Math.max(unfair, fairEnough);
  makeFairer(handing, allowed);
  if (handing.unfair() > allowed + 1e-9) return null;
  makeEasier(handing, Math.max(unfair, handing.unfair()));
  return handing;
}
