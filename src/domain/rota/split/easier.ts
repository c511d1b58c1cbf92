import type { Handing } from './handing.ts';

/** Each round makes a split cheaper, so that they end by themselves. */
const mostRounds = 20;
const least = 1e-6;

/**
 * Makes a split cheaper while nobody gets further than `allowed` minutes from what they owe: pieces change hands one by one, two of the
 * same day for one another, and all pieces of two partners along a rack.
 */
export function makeEasier(handing: Handing, allowed: number): void {
  for (let round = 0; round < mostRounds; round++) {
    const before = handing.cost();
    moveOne(handing, allowed);
    swapRows(handing, allowed);
    swapTwo(handing, allowed);
    if (handing.cost() > before - least) return;
  }
}

/** Whether nobody is too far from what they owe once `from` gives so many minutes to `to`. */
const staysFair = ({ over }: Handing, allowed: number, from: number, to: number, minutes: number): boolean =>
  over(from, -minutes) >= -allowed - 1e-9 &&
  over(from, -minutes) <= allowed + 1e-9 &&
  over(to, minutes) >= -allowed - 1e-9 &&
  over(to, minutes) <= allowed + 1e-9;

function moveOne(handing: Handing, allowed: number): void {
  for (const [index, { able, minutes }] of handing.pieces.entries()) {
    for (const place of able) {
      const now = handing.owner[index] ?? -1;
      if (place === now || !staysFair(handing, allowed, now, place, minutes)) continue;
      if (handing.costOf(index, place) < -least) handing.give(index, place);
    }
  }
}

function swapTwo(handing: Handing, allowed: number): void {
  const { pieces, owner } = handing;
  for (const [index, piece] of pieces.entries()) {
    for (let mate = index + 1; mate < pieces.length; mate++) {
      const other = pieces[mate];
      if (other === undefined || other.at !== piece.at) break;
      const [mine, theirs] = [owner[index] ?? -1, owner[mate] ?? -1];
      if (mine === theirs || !staysFair(handing, allowed, mine, theirs, piece.minutes - other.minutes)) continue;
      if (!piece.able.includes(theirs) || !other.able.includes(mine)) continue;
      if (handing.costOfSwap(index, mate) >= -least) continue;
      handing.give(index, theirs);
      handing.give(mate, mine);
    }
  }
}

/** Two partners change places along a rack on a day. */
function swapRows(handing: Handing, allowed: number): void {
  for (let first = 0; first < handing.pieces.length; ) {
    let end = first + 1;
    while (handing.sameRow(first, end)) end++;
    for (let one = 0; one < handing.partners; one++) {
      for (let other = one + 1; other < handing.partners; other++) swapRow(handing, allowed, first, end, one, other);
    }
    first = end;
  }
}

function swapRow(handing: Handing, allowed: number, first: number, end: number, one: number, other: number): void {
  const { pieces, owner } = handing;
  const swapped = (index: number): number => (owner[index] === one ? other : owner[index] === other ? one : -1);
  let given = 0;
  for (let index = first; index < end; index++) {
    const to = swapped(index);
    if (to < 0) continue;
    if (!pieces[index]?.able.includes(to)) return;
    given += (to === other ? 1 : -1) * (pieces[index]?.minutes ?? 0);
  }
  if (!staysFair(handing, allowed, one, other, given)) return;
  const before = handing.cost();
  const swapAll = (): void => {
    for (let index = first; index < end; index++) if (swapped(index) >= 0) handing.give(index, swapped(index));
  };
  swapAll();
  if (handing.cost() > before - least) swapAll();
}
