import { addDays, type LocalDay } from '../../day.ts';
import type { TubNow } from './ahead.ts';
import { aheadDays } from './ahead.ts';
import { females, males, memberCount, mortality } from './layout.ts';
import { quantilesOf, type Range } from './range.ts';
import { saleableDeathAt } from './rates.ts';

/**
 * Effective size of a colony by its sexes: as many of an even colony would lose as little of its variety to chance.
 *
 *   Ne = 4·F·M/(F + M)        0 where a sex is missing
 *
 * Source: Wright 1931, Genetics 16: 97–159 (from memory). Inbreeding grows by 1/(2·Ne) a generation.
 * @param females, males grown animals, 0 and up
 */
export const effectiveSize = (females: number, males: number): number =>
  females + males > 0 ? (4 * females * males) / (females + males) : 0;

/** Breeders of a line to hold through winter. */
export interface Breeders {
  readonly females: number;
  readonly males: number;
  /** Share of grown animals that live to the day: 10 % quantile. */
  readonly survival: number;
  /** Share of females among the line's grown animals, median. */
  readonly femaleShare: number;
  /** Effective size of the grown animals that there are today: 80 % range. */
  readonly effectiveNow: Range;
}

/**
 * Breeders of a line to hold now so that on a day ahead, after losses, their effective size is still what is wanted, in the ratio of sexes that the
 * line has: N·s·4·p·(1 − p) = Ne, with the survival s that nine of ten futures exceed.
 *
 * @param tubs      tubs of the line, one at least
 * @param effective effective size wanted, such as 50: about 1 % of inbreeding a generation (common practice, no source)
 */
export function breedersToHold(tubs: readonly TubNow[], from: LocalDay, until: LocalDay, effective: number): Breeders {
  const sexes = Array.from({ length: memberCount }, (_, member) => ({
    females: sumOver(tubs, females, member),
    males: sumOver(tubs, males, member),
  }));
  const [femaleShare = 0.5] = quantilesOf(
    sexes.map((of) => (of.females + of.males > 0 ? of.females / (of.females + of.males) : 0.5)),
    [0.5],
  );
  const [survival = 1] = quantilesOf(survivalUntil(tubs, from, until), [0.1]);
  const share = Math.min(0.95, Math.max(0.05, femaleShare));
  const number = effective / (4 * share * (1 - share)) / Math.max(0.05, survival);
  const [low = 0, median = 0, high = 0] = quantilesOf(
    sexes.map((of) => effectiveSize(of.females, of.males)),
    [0.1, 0.5, 0.9],
  );
  return {
    females: Math.ceil(number * share),
    males: Math.ceil(number * (1 - share)),
    survival,
    femaleShare,
    effectiveNow: { low, median, high },
  };
}

const sumOver = (tubs: readonly TubNow[], row: number, member: number): number =>
  tubs.reduce((sum, { colony }) => sum + (colony.numbers[row * memberCount + member] ?? 0), 0);

/** Share of today's grown animals alive on a day ahead, by member: the mean over the tubs of exp(−Σ hazard). */
function survivalUntil(tubs: readonly TubNow[], from: LocalDay, until: LocalDay): Float64Array {
  const alive = new Float64Array(memberCount);
  for (const { tub, colony } of tubs) {
    let hazard = 0;
    for (let day = from; day < until; day = addDays(day, aheadDays)) {
      hazard += saleableDeathAt(tub.temps(day).tempC) * aheadDays;
    }
    for (let member = 0; member < memberCount; member++) {
      const own = hazard * (colony.numbers[mortality * memberCount + member] ?? 1);
      alive[member] = (alive[member] ?? 0) + Math.exp(-own) / tubs.length;
    }
  }
  return alive;
}
