import type { TubNow } from './ahead.ts';
import { grownOf, takeGrown } from './animals.ts';
import { saleableOf } from './colony.ts';
import { animalRows, females, males, memberCount } from './layout.ts';
import { quantilesOf } from './range.ts';
import type { ColonyTub } from './tub.ts';

/**
 * A line with one more tub, stocked today with grown animals from the line's fullest, as they come. What the tub adds is what `sustainableWeekly`
 * or `forecast` tell of these tubs over what they tell without.
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
