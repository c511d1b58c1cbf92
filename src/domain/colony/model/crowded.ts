import type { LocalDay } from '../../day.ts';
import type { TubNow } from './ahead.ts';
import { goAhead } from './forecast.ts';
import { quantilesOf } from './range.ts';
import { grownAhead } from './sellAhead.ts';

/** From this many saleable animals a litre a tub is over-dense (common practice, no source; 2.5 does best, see `crowding`). */
export const overDensePerLitre = 5;

/** When a tub becomes over-dense if nothing is taken from it; null: not by the end of the look ahead. */
export interface OverDense {
  /** As likely as not. */
  readonly likely: LocalDay | null;
  /** One in ten. */
  readonly earliest: LocalDay | null;
}

/** The days on which a tub is over-dense, in steps of 4 days, `from` included. */
export function overDense(now: TubNow, from: LocalDay, until: LocalDay, perLitre = overDensePerLitre): OverDense {
  const limit = perLitre * now.tub.netLitres;
  let [likely, earliest]: [LocalDay | null, LocalDay | null] = [null, null];
  const plan = { weekly: 0, promised: 0, holdBack: 0, isOpen: () => false };
  goAhead([now], from, until, plan, ({ line }) => {
    const [first] = line.tubs;
    if (first === undefined) return;
    const grown = Float64Array.from({ length: line.members }, (_, member) =>
      grownAhead(first.numbers, line.members, member),
    );
    const [median = 0, high = 0] = quantilesOf(grown, [0.5, 0.9]);
    if (median > limit) likely ??= line.day;
    if (high > limit) earliest ??= line.day;
  });
  return { likely, earliest };
}
