import type { LocalDay } from '../../day.ts';
import { goAhead, outlook, type TubNow } from './ahead.ts';
import { sumOf } from './animals.ts';
import { saleableOf } from './colony.ts';
import { females, memberCount, young, youngBoxes } from './layout.ts';
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

/** The tub of a line that is over-dense first. */
export interface FirstOverDense extends OverDense {
  readonly tub: TubNow;
  /** Saleable animals a litre today, median. */
  readonly perLitre: number;
}

/** So many tubs, the fullest of animals of all sizes, are looked at one by one. */
const candidates = 6;

/** The tub that becomes over-dense first if nothing is taken from it, as likely as not; else by the earliest. Null: none by the end. */
export function firstOverDense(tubs: readonly TubNow[], from: LocalDay, until: LocalDay): FirstOverDense | null {
  const fullest = tubs.toSorted((a, b) => allPerLitre(b) - allPerLitre(a)).slice(0, candidates);
  const found = fullest
    .map((now) => ({ ...overDense(now, from, until), tub: now, perLitre: saleablePerLitre(now) }))
    .filter(({ earliest }) => earliest !== null)
    .toSorted((a, b) => firstOf(a).localeCompare(firstOf(b)) || b.perLitre - a.perLitre);
  return found[0] ?? null;
}

/** Sorts a likely day before any that is only possible. */
const firstOf = ({ likely, earliest }: OverDense): string => (likely === null ? `later ${earliest}` : likely);

const saleablePerLitre = ({ tub, colony }: TubNow): number =>
  (quantilesOf(saleableOf(colony), [0.5])[0] ?? 0) / tub.netLitres;

/** Animals of all sizes a litre, the mean of the members. */
function allPerLitre({ tub, colony: { numbers } }: TubNow): number {
  let sum = 0;
  for (let member = 0; member < memberCount; member++) {
    sum += sumOf(numbers, young, youngBoxes, member) + sumOf(numbers, females, 2, member);
  }
  return sum / memberCount / tub.netLitres;
}
