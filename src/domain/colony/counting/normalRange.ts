/** The 10 % and 90 % quantiles of a normal belief are its mean ∓ this many standard deviations. */
export const z90 = 1.2815515655446004;
