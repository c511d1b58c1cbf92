import type { LocalDay } from '../../day.ts';
import { goAhead, outlook, type SalesAhead, type TubNow } from './ahead.ts';
import { grownOf, takeGrown } from './animals.ts';
import { saleableOf } from './colony.ts';
import { animalRows, females, males, memberCount } from './layout.ts';
import { quantilesOf, type Range, rangeOf } from './range.ts';
import { spareAhead } from './sellAhead.ts';
import type { ColonyTub } from './tub.ts';

/**
 * A line with one more tub, stocked today with grown animals from the line's fullest, as they come.
 *
 * @param tubs   one at least
 * @param tub    the new tub, with an id of its own
 * @param number animals to stock it with
 */
export function withOneMore(tubs: readonly TubNow[], tub: ColonyTub, number: number): TubNow[] {
  const median = ({ colony }: TubNow): number => quantilesOf(saleableOf(colony), [0.5])[0] ?? 0;
  const fullest = tubs.reduce((best, now) => (median(now) > median(best) ? now : best));
  const [stayed, moved] = [fullest.colony.numbers.slice(), fullest.colony.numbers.slice()];
  moved.fill(0, 0, animalRows * memberCount);
  for (let member = 0; member < memberCount; member++) {
    const before = [females, males].map((row) => stayed[row * memberCount + member] ?? 0);
    takeGrown(stayed, member, Math.min(number, grownOf(stayed, member)), false);
    [females, males].forEach((row, nth) => {
      moved[row * memberCount + member] = (before[nth] ?? 0) - (stayed[row * memberCount + member] ?? 0);
    });
  }
  return [
    ...tubs.map((now) => (now === fullest ? { tub: now.tub, colony: { ...now.colony, numbers: stayed } } : now)),
    { tub, colony: { ...fullest.colony, tubId: tub.id, numbers: moved } },
  ];
}

/**
 * What one more tub adds by a day: the animals over the breeders of a tub and of the new one that is stocked from it, less those of the tub alone,
 * in each member. Breeders are held back in the new one too, and both sell as much as the tub alone.
 *
 * @param fullest the tub that the animals are taken from
 * @param tub     the new one, with an id of its own
 * @param number  animals moved, as in `withOneMore`
 * @param weekly  animals sold a week from the one tub
 */
export function oneMoreAdds(
  fullest: TubNow,
  tub: ColonyTub,
  number: number,
  span: { readonly from: LocalDay; readonly until: LocalDay },
  weekly: number,
  sales: SalesAhead,
): Range {
  const leftOf = (tubs: readonly TubNow[]): Float64Array => {
    const future = outlook(tubs, span.from, span.until);
    let left = new Float64Array(future.members);
    goAhead(future, new Float64Array(future.members).fill(weekly), sales, (_day, line, missing) => {
      left = spareAhead(line, sales.holdBack).map((spare, member) => spare - (missing[member] ?? 0));
    });
    return left;
  };
  const [alone, both] = [leftOf([fullest]), leftOf(withOneMore([fullest], tub, number))];
  return rangeOf(both.map((left, member) => left - (alone[member] ?? 0)));
}
