import type { Owed } from './owed.ts';
import type { Piece } from './piece.ts';

/** Of more pieces, or after more steps, the search is given up. */
const mostPieces = 40;
const mostSteps = 30_000;

/** A fairer split, if there is one, by piece; and whether all were looked through. */
export interface UnfairFound {
  readonly owner: readonly number[] | null;
  readonly isComplete: boolean;
}

/**
 * Looks through the splits of few pieces for one that is fairer than `unfair`, the longest pieces first, and leaves what cannot be fairer.
 * Ends after a fixed number of steps, so that the same question has the same answer on any machine.
 */
export function leastUnfair(pieces: readonly Piece[], { inAll, counts }: Owed, unfair: number): UnfairFound {
  if (pieces.length > mostPieces) return { owner: null, isComplete: false };
  const order = pieces.map((_, index) => index).sort((a, b) => minutesOf(pieces, b) - minutesOf(pieces, a) || a - b);
  const open = openMinutes(pieces, order, inAll.length);
  const given = new Float64Array(inAll.length);
  const chosen: number[] = [];
  let best: number[] | null = null;
  let below = unfair - 1e-9;
  let steps = 0;

  /** Whether each partner can still come nearer than the best to what they owe. */
  const isHopeful = (depth: number): boolean =>
    inAll.every((owed, place) => {
      const now = given[place] ?? 0;
      return !counts[place] || (now - owed < below && owed - now - (open[depth]?.[place] ?? 0) < below);
    });

  const search = (depth: number): void => {
    if (!isHopeful(depth)) return;
    const index = order[depth];
    if (index === undefined) {
      best = [...chosen];
      below = off() - 1e-9;
      return;
    }
    for (const place of pieces[index]?.able ?? []) {
      steps += 1;
      if (steps > mostSteps) return;
      given[place] = (given[place] ?? 0) + minutesOf(pieces, index);
      chosen[index] = place;
      search(depth + 1);
      given[place] = (given[place] ?? 0) - minutesOf(pieces, index);
    }
  };
  const off = (): number =>
    inAll.reduce(
      (most, owed, place) => (counts[place] ? Math.max(most, Math.abs((given[place] ?? 0) - owed)) : most),
      0,
    );

  search(0);
  return { owner: best, isComplete: steps <= mostSteps };
}

const minutesOf = (pieces: readonly Piece[], index: number): number => pieces[index]?.minutes ?? 0;

/** By how far the search is, the minutes that each partner may yet be given. */
function openMinutes(pieces: readonly Piece[], order: readonly number[], partners: number): number[][] {
  const open = [Array.from({ length: partners }, () => 0)];
  for (const index of [...order].reverse()) {
    const next = [...(open[0] ?? [])];
    for (const place of pieces[index]?.able ?? []) next[place] = (next[place] ?? 0) + minutesOf(pieces, index);
    open.unshift(next);
  }
  return open;
}
