import type { TubEvent } from './event.ts';
import { normalDensity } from './normal.ts';
import { seenMgL, seenScale } from './sight.ts';

/** How the tub is cared for: days between changes over the fraction of each. Times the rise it is the plateau over the source water. */
export interface Care {
  readonly daysPerFraction: number;
  /** Spread of the start about that plateau, standard deviation of the logarithm. */
  readonly logSd: number;
}

/** 15 % a week, very uncertain: a tub whose changes are not known yet (common practice, no source). */
const unknownCare: Care = { daysPerFraction: 47, logSd: 1.2 };
/** Spread about the plateau of a tub whose care the log shows (assumption). */
const knownCareLogSd = 0.7;

/** The care that the log shows, from two changes up. */
export function careOf(events: readonly TubEvent[]): Care {
  const changes = events.flatMap((event) => (event.of === 'change' ? [event] : []));
  const [first, last] = [changes[0], changes.at(-1)];
  if (first === undefined || last === undefined || last.day - first.day < 2) return unknownCare;
  const swapped = changes.reduce((sum, { fraction }) => sum + fraction, 0);
  const days = (last.day - first.day) / (changes.length - 1);
  return { daysPerFraction: (days * changes.length) / swapped, logSd: knownCareLogSd };
}

/** Shares of the three pasts: cared for as since, newly filled with source water, anything (assumption). */
const caredShare = 0.45;
const filledShare = 0.15;
const anyShare = 0.4;
/** Spread of newly filled water about the source on the seen scale, and the top of "anything", mg/L. */
const filledSd = 0.1;
const anyTop = seenScale(150);

/**
 * Density, on the seen scale, of nitrate `u` at the start of a history: half a guess that the tub was cared for as it is since and so
 * stood near its plateau, and half that nothing is known. The first alone misleads where a tub was left for months, the second where the
 * first readings only say "between 15 and 30".
 *
 * @param risePerDay rise at the start, mg/L a day
 */
export function startDensity(u: number, risePerDay: number, sourceMgL: number, care: Care): number {
  const mgL = seenMgL(u);
  const over = mgL - sourceMgL;
  const plateau = Math.log(Math.max(0, risePerDay * care.daysPerFraction) + 1);
  // The plateau is guessed over the source, the density asked for on the seen scale: (N + 1)/(over + 1) changes from one to the other.
  const cared = over < 0 ? 0 : (normalDensity(Math.log(over + 1), plateau, care.logSd) * (mgL + 1)) / (over + 1);
  const filled = normalDensity(u, seenScale(sourceMgL), filledSd);
  return caredShare * cared + filledShare * filled + (u <= anyTop ? anyShare / anyTop : 0);
}
