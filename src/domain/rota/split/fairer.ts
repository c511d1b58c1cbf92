import type { Handing } from './handing.ts';

/** Two pieces, or one, change hands: `from` gives `away` minutes to `to` and takes `back` minutes. */
interface Trade {
  readonly from: number;
  readonly to: number;
  readonly away: number;
  readonly back: number;
}

/** How unfair a split is: the largest distance from what is owed, then the sum of squares of all. */
interface Unfair {
  readonly most: number;
  readonly squares: number;
}

const isLess = (a: Unfair, b: Unfair): boolean =>
  a.most < b.most - 1e-9 || (a.most < b.most + 1e-9 && a.squares < b.squares - 1e-6);

/** Trades end by themselves, as each makes a split fairer. */
const mostTrades = 2000;

/**
 * Makes a split fairer by the trade that helps most, until nobody is off by more than `allowed` minutes or no trade of one piece for one or
 * none helps. Of pieces of the same minutes the one changes hands that costs least.
 */
export function makeFairer(handing: Handing, allowed: number): void {
  for (let trades = 0; trades < mostTrades && handing.unfair() > allowed + 1e-9; trades++) {
    const trade = bestTrade(handing);
    if (trade === null) return;
    const given = cheapest(handing, trade.from, trade.to, trade.away);
    if (given !== null) handing.give(given, trade.to);
    const taken = trade.back === 0 ? null : cheapest(handing, trade.to, trade.from, trade.back, given);
    if (taken !== null) handing.give(taken, trade.from);
  }
}

function bestTrade(handing: Handing): Trade | null {
  const over = Array.from({ length: handing.partners }, (_, place) => handing.over(place));
  const tradable = tradableMinutes(handing);
  let best: Trade | null = null;
  let least = unfairnessOf(over);
  for (const [from, those] of tradable.entries()) {
    for (const [to, aways] of those.entries()) {
      for (const away of aways) {
        for (const back of [0, ...(tradable[to]?.[from] ?? [])]) {
          const after = unfairnessOf(over, { from, to, away, back });
          if (!isLess(after, least)) continue;
          least = after;
          best = { from, to, away, back };
        }
      }
    }
  }
  return best;
}

/** By giver and taker, the different minutes of pieces that can change hands. */
function tradableMinutes({ pieces, owner, partners }: Handing): Set<number>[][] {
  const minutes = Array.from({ length: partners }, () => Array.from({ length: partners }, () => new Set<number>()));
  for (const [index, piece] of pieces.entries()) {
    const from = owner[index] ?? -1;
    for (const to of piece.able) if (to !== from) minutes[from]?.[to]?.add(piece.minutes);
  }
  return minutes;
}

function unfairnessOf(over: readonly number[], trade?: Trade): Unfair {
  let most = 0;
  let squares = 0;
  for (const [place, one] of over.entries()) {
    let off = one;
    if (trade !== undefined && place === trade.from) off += trade.back - trade.away;
    if (trade !== undefined && place === trade.to) off += trade.away - trade.back;
    most = Math.max(most, Math.abs(off));
    squares += off * off;
  }
  return { most, squares };
}

/** The piece of so many minutes that costs least to change hands. */
function cheapest(
  { pieces, owner, costOf }: Handing,
  from: number,
  to: number,
  minutes: number,
  but: number | null = null,
) {
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [index, piece] of pieces.entries()) {
    if (owner[index] !== from || piece.minutes !== minutes || index === but || !piece.able.includes(to)) continue;
    const cost = costOf(index, to);
    if (cost < least - 1e-9) {
      least = cost;
      best = index;
    }
  }
  return best;
}
