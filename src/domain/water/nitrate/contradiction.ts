import { cloudOf } from './cloud.ts';
import { type Estimate, estimateOf } from './estimate.ts';
import { eventsInWindow, type TubEvent } from './event.ts';
import { type Explanation, explanationsOf } from './explanation.ts';
import { foretell } from './foretold.ts';
import { type RisePrior, widePrior } from './risePrior.ts';
import { weightsOf } from './walk.ts';

/** A reading that does not follow from those before it. */
export interface Contradiction {
  readonly day: number;
  readonly readMgL: number;
  /** Nitrate that was to be expected, mg/L. */
  readonly expectedMgL: Estimate;
  readonly isHigh: boolean;
  /** Chance of a reading as far off as this or farther on its side. */
  readonly chance: number;
  /** The likeliest first. */
  readonly explanations: readonly Explanation[];
}

/** A reading contradicts when one as low, or one as high, had less than this chance. */
const leastChance = 0.02;

/**
 * Judges the newest reading by what the readings, changes and top-ups before it foretold; null when it follows from them, or when there
 * is no reading before it to judge by.
 *
 * @param events    the tub's events in any order; what comes after the newest reading is left out
 * @param sourceMgL nitrate of the source water, mg/L
 */
export function contradiction(
  events: readonly TubEvent[],
  sourceMgL: number,
  kitStepsMgL: readonly number[],
  prior: RisePrior = widePrior,
): Contradiction | null {
  const newestDay = events.reduce(
    (last, { of, day }) => (of === 'reading' && day > last ? day : last),
    Number.NEGATIVE_INFINITY,
  );
  const used = eventsInWindow(events, newestDay);
  const at = used.findLastIndex(({ of }) => of === 'reading');
  const reading = used[at];
  if (reading?.of !== 'reading') return null;
  const before = used.slice(0, at);
  const lastAt = before.findLastIndex(({ of }) => of === 'reading');
  if (lastAt < 0) return null;
  const cloud = cloudOf(before, reading.day, { sourceMgL, kitStepsMgL, prior });
  const foretold = foretell(cloud, kitStepsMgL);
  const { asLow, asHigh } = foretold.tailsOf(reading.nitrateMgL);
  if (asLow >= leastChance && asHigh >= leastChance) return null;
  return {
    day: reading.day,
    readMgL: reading.nitrateMgL,
    expectedMgL: estimateOf(cloud.levelMgL, weightsOf(cloud.weights)),
    isHigh: asHigh < asLow,
    chance: Math.min(asLow, asHigh),
    explanations: explanationsOf({
      typedMgL: reading.nitrateMgL,
      foretold,
      sourceMgL,
      kitStepsMgL,
      changesSince: before.slice(lastAt).flatMap((event) => (event.of === 'change' ? [event] : [])),
      readsBetweenSteps: before.some((event) => event.of === 'reading' && !kitStepsMgL.includes(event.nitrateMgL)),
    }),
  };
}
