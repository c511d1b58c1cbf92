/** What a reading says: the nitrate that would look like it, mg/L as NO3. */
export interface ReadInterval {
  readonly lowMgL: number;
  /** Infinite for the kit's top step: "this or more". */
  readonly highMgL: number;
  /** Whether the value is a step of the kit; a value between steps is taken as it is, with a small spread. */
  readonly isStep: boolean;
  /** How many times the sample was diluted; left out where it was not. */
  readonly times?: number;
}

/** Spread of a value that somebody read between two steps: a share of it, and no less than half a mg/L (common practice, no source). */
const betweenShare = 0.1;
const betweenLeastMgL = 0.5;

/** A sample that is over the kit's top is diluted so many times. */
export const dilutions = [2, 4] as const;

/**
 * The interval that a typed value stands for. A colour kit reads in steps and people take the nearest, so 40 between 20 and 80 stands
 * for 30 to 60. The top step stands for everything above its lower midpoint, and so does a value typed beyond it, unless it is twice or
 * four times a step: then the sample was diluted, and the step's interval is as much wider.
 *
 * @param typedMgL    the reading, mg/L, at least 0
 * @param kitStepsMgL steps of the kit, ascending
 */
export function readInterval(typedMgL: number, kitStepsMgL: readonly number[]): ReadInterval {
  const top = kitStepsMgL.length - 1;
  if (typedMgL > (kitStepsMgL[top] ?? Number.POSITIVE_INFINITY)) {
    const times = dilutions.find((one) => kitStepsMgL.includes(typedMgL / one));
    if (times !== undefined) {
      const { lowMgL, highMgL } = readInterval(typedMgL / times, kitStepsMgL);
      return { lowMgL: lowMgL * times, highMgL: highMgL * times, isStep: true, times };
    }
  }
  const index = typedMgL > (kitStepsMgL[top] ?? Number.POSITIVE_INFINITY) ? top : kitStepsMgL.indexOf(typedMgL);
  const step = kitStepsMgL[index];
  if (step === undefined) {
    const spread = Math.max(typedMgL * betweenShare, betweenLeastMgL);
    return { lowMgL: Math.max(0, typedMgL - spread), highMgL: typedMgL + spread, isStep: false };
  }
  const below = kitStepsMgL[index - 1];
  const above = kitStepsMgL[index + 1];
  return {
    lowMgL: below === undefined ? 0 : (below + step) / 2,
    highMgL: above === undefined ? Number.POSITIVE_INFINITY : (step + above) / 2,
    isStep: true,
  };
}
