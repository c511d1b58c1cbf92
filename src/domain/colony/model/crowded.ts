import type { LocalDay } from '../../day.ts';
import { goAhead, outlook, type TubNow } from './ahead.ts';
import { quantilesOf } from './range.ts';
import { sumAhead } from './sellAhead.ts';

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
export function overDense(
  now: TubNow,
  from: LocalDay,
  until: LocalDay,
  perLitre: number = overDensePerLitre,
): OverDense {
  const limit = perLitre * now.tub.netLitres;
  const future = outlook([now], from, until);
  const nothing = { promised: 0, holdBack: 0, isOpen: () => false };
  let [likely, earliest]: [LocalDay | null, LocalDay | null] = [null, null];
  goAhead(future, new Float64Array(future.members), nothing, (day, line) => {
    const [median = 0, high = 0] = quantilesOf(
      sumAhead(line, (saleable) => saleable),
      [0.5, 0.9],
    );
    if (median > limit) likely ??= day;
    if (high > limit) earliest ??= day;
  });
  return { likely, earliest };
}
