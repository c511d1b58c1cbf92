/**
 * How long weather lasts in a tub, days: of a deviation from the curve exp(−t/7) is left after t days (assumption: a spell of weather lasts
 * about a week; room and water smooth what is shorter).
 */
export const weatherDays = 7;

/** How much the readings before and after a day tell of it. */
export interface Pull {
  /** Share of the deviation at the reading before that is expected on the day. */
  readonly before: number;
  /** The same of the reading after. */
  readonly after: number;
  /** Share of the weather's variance that neither tells, 0 to 1. */
  readonly untold: number;
}

/**
 * Expected deviation between two readings of an Ornstein–Uhlenbeck process, which goes back to the curve with the time above.
 *
 *   before = sinh v / sinh(u + v), after = sinh u / sinh(u + v), untold = 2·sinh u·sinh v / sinh(u + v)        u, v: days / 7
 *
 * With one reading only: exp(−u) and 1 − exp(−2u).
 *
 * @param daysBefore  days from the reading before, over 0; infinite: there is none
 * @param daysAfter   days to the reading after, over 0; infinite: there is none
 * Source: the bridge of a stationary Gauss–Markov process, from memory; checked in the test against the conditional of its covariance.
 */
export function pullOf(daysBefore: number, daysAfter: number): Pull {
  const [u, v] = [daysBefore / weatherDays, daysAfter / weatherDays];
  // In powers of e that only shrink, so that years between readings do not overflow.
  const both = 1 - Math.exp(-2 * (u + v));
  const [uRest, vRest] = [1 - Math.exp(-2 * u), 1 - Math.exp(-2 * v)];
  return {
    before: (Math.exp(-u) * vRest) / both,
    after: (Math.exp(-v) * uRest) / both,
    untold: (uRest * vRest) / both,
  };
}
