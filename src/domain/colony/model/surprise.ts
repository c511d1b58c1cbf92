import { normalBelow } from '../../water/nitrate/normal.ts';
import { z90 } from '../development/rateSpread.ts';
import { animalsAt, type Likelihood } from './likelihood.ts';
import { spreadOf } from './spread.ts';

/** A fact that the model did not expect. It is kept and believed; this points it out. */
export interface Surprise {
  readonly entryId: number;
  readonly of: 'saleable' | 'juveniles' | 'berried' | 'taken';
  /** What was counted, or taken. */
  readonly number: number;
  /** What was expected of it: 10, 50 and 90 %, animals. Of something taken: what was thought to be there. */
  readonly expected: { readonly low: number; readonly median: number; readonly high: number };
  /** Chance of something at least as far off, 0 to 1, as the model saw it before. */
  readonly chance: number;
}

/** Counts less likely than this are pointed out, when they are off by this many animals or more (our choice). */
const [unlikely, leastOff] = [0.01, 4];

/** How a count stands to what was expected of it. */
export interface Judged {
  readonly surprise: Surprise | null;
  /** Standard deviations off; positive: more than expected. */
  readonly z: number;
  /** Share of the expected variance that was the model's, the rest is the count's. */
  readonly ofModel: number;
}

/** Judges a count before it is taken in. `y`: `logNumber` of what each member expects to be seen. */
export function judge(entryId: number, of: Surprise['of'], number: number, y: Float64Array, seen: Likelihood): Judged {
  const { mean, sd } = spreadOf(y);
  const total = Math.hypot(sd, seen.sd);
  const z = (seen.centre - mean) / total;
  const chance = 2 * normalBelow(-Math.abs(z));
  const at = (place: number): number => Math.round(animalsAt(mean + place * total));
  const expected = { low: at(-z90), median: at(0), high: at(z90) };
  const isOff = chance < unlikely && Math.abs(number - expected.median) >= leastOff;
  return { surprise: isOff ? { entryId, of, number, expected, chance } : null, z, ofModel: (sd / total) ** 2 };
}
