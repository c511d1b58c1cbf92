/**
 * Wet mass of an animal from its length, growth taken to be isometric.
 *
 *   W = a·L³
 *
 * @param lengthMm  total length, mm, 5 to 40
 * @param mgPerMm3  the coefficient a, mg/mm³; see `PackingFigures`
 * @returns g
 * Error: no length–weight relation of *Neocaridina davidi* was found, so the form is assumed and a lies between 0.007 and 0.013; a
 * related prawn, *Macrobrachium nipponense*, has 0.0128 to 0.0138 (condition factor 1.28 to 1.38; Anzali lagoon, 10 441 animals).
 */
export const bodyMassG = (lengthMm: number, mgPerMm3: number): number => (mgPerMm3 * lengthMm ** 3) / 1000;
