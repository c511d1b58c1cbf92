import { fail, ok, type Result } from '../../result.ts';
import { studentT } from './studentT.ts';

/** One catch of a season and the effort it took, in units of your own (nettings, minutes), the same in all. */
export interface SeasonCatch {
  /** Animals, whole, 0 and up. */
  readonly caught: number;
  /** Over 0. */
  readonly effort: number;
}

/** Why a season's catches tell no number. `caught`: what came out in all, which is the least that was there. */
export interface DepletionFault {
  readonly kind: 'too-few-catches' | 'nothing-caught' | 'no-decline' | 'weak-decline';
  readonly caught: number;
}

/** Animals before the first catch, by the fall of the catch per effort. */
export interface Depletion {
  /** N₀ as published, not rounded; a straight line drawn to the end can come out a little under `caught`. */
  readonly number: number;
  readonly standardError: number;
  /** q, the share caught by one unit of effort. */
  readonly catchability: number;
  readonly catchabilityError: number;
  readonly caught: number;
  /** Ends of the interval of N₀, animals, never below `caught`. */
  readonly low: number;
  readonly high: number;
  /** Degrees of freedom of the line, for an interval of Student's t. */
  readonly freedom: number;
}

export interface LeslieOptions {
  /** Ricker's modification: half of a catch counts as taken before it. */
  readonly ricker?: boolean;
  /** Level of the interval, over 0 and under 1; 0.8 is from 10 % to 90 %. */
  readonly level?: number;
}

/** A line through three points leaves one degree of freedom. */
const fewestCatches = 3;

/**
 * Leslie's depletion: catch per effort falls with the catch before it, cᵢ/fᵢ = q·N₀ − q·Kᵢ₋₁, by least squares; N₀ = intercept/q;
 * SE(N₀) = (s/q)·√(1/n + (N₀−K̄)²/ΣdK²), SE(q) = s/√ΣdK².
 * Source: Leslie & Davis 1939, J. Anim. Ecol. 8: 94–113; Ricker 1975, Bull. Fish. Res. Board Can. 191; Seber 2002, ch. 7 (from memory).
 *
 * The interval is Fieller's, the N₀ at which the line may cross zero, not N₀ ± t·SE: when half of the animals were caught, the
 * symmetric one holds the truth far more seldom than it says and begins below what was caught. It has no upper end where q is not
 * told from 0 at its level, which is refused. Range: a closed tub, the same kind of effort all season; animals that are born meanwhile
 * make it too high.
 */
export function leslieDepletion(
  catches: readonly SeasonCatch[],
  { ricker = false, level = 0.8 }: LeslieOptions = {},
): Result<Depletion, DepletionFault> {
  const caught = catches.reduce((sum, each) => sum + each.caught, 0);
  const refuse = (kind: DepletionFault['kind']) => fail({ kind, caught });
  if (catches.some((each) => !Number.isInteger(each.caught) || each.caught < 0 || !(each.effort > 0))) {
    throw new RangeError('a catch is a whole number from 0 up, an effort over 0');
  }
  if (catches.length < fewestCatches) return refuse('too-few-catches');
  if (caught === 0) return refuse('nothing-caught');

  const { slope, meanBefore, meanRate, spreadBefore, variance } = lineThrough(pointsOf(catches, ricker));
  const catchability = -slope;
  if (!(catchability > 0)) return refuse('no-decline');
  const freedom = catches.length - 2;
  const t = studentT(level, freedom);
  const number = meanBefore + meanRate / catchability;
  // Where (ȳ − q·u)² = t²s²(1/n + u²/ΣdK²), u from the mean of K.
  const square = slope ** 2 - (t ** 2 * variance) / spreadBefore;
  const fixed = meanRate ** 2 - (t ** 2 * variance) / catches.length;
  if (!(square > 0)) return refuse('weak-decline');
  const middle = (catchability * meanRate) / square;
  const half = Math.sqrt(Math.max(0, middle ** 2 - fixed / square));
  return ok({
    number,
    standardError:
      (Math.sqrt(variance) / catchability) * Math.sqrt(1 / catches.length + (number - meanBefore) ** 2 / spreadBefore),
    catchability,
    catchabilityError: Math.sqrt(variance / spreadBefore),
    caught,
    low: Math.max(caught, meanBefore + middle - half),
    high: Math.max(caught, meanBefore + middle + half),
    freedom,
  });
}

/** Catch before a catch, and its catch per effort. */
interface Point {
  readonly before: number;
  readonly rate: number;
}

function pointsOf(catches: readonly SeasonCatch[], ricker: boolean): Point[] {
  let before = 0;
  return catches.map(({ caught, effort }) => {
    const point = { before: before + (ricker ? caught / 2 : 0), rate: caught / effort };
    before += caught;
    return point;
  });
}

/** Least squares of the rate on the catch before it. */
function lineThrough(points: readonly Point[]) {
  const mean = (of: (point: Point) => number): number =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const meanBefore = mean(({ before }) => before);
  const meanRate = mean(({ rate }) => rate);
  const spreadBefore = points.reduce((sum, { before }) => sum + (before - meanBefore) ** 2, 0);
  const together = points.reduce((sum, { before, rate }) => sum + (before - meanBefore) * (rate - meanRate), 0);
  const slope = together / spreadBefore;
  const off = points.reduce((sum, { before, rate }) => sum + (rate - meanRate - slope * (before - meanBefore)) ** 2, 0);
  return { slope, meanBefore, meanRate, spreadBefore, variance: off / (points.length - 2) };
}
