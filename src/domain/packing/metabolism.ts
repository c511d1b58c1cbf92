/**
 * Oxygen that a gram of shrimp uses in an hour.
 *
 *   R = 0.0711·e^(0.0749·t)
 *
 * @param tempC  water temperature, °C, measured from 12 to 30
 * @returns mg O2 per g wet mass and hour, for animals of the tests' mean size
 * Error: r = 0.877; for *Exopalaemon modestus* of 0.12 to 1.93 g. No figure for *Neocaridina* was found.
 * Source: Liu, Xu, Duan, Zhang & Shi 2010, Chinese Journal of Ecology, doi 10.13292/j.1000-4890.2010.0162 (abstract).
 * Checked: tests/published/respirationLiu2010.csv.
 */
export const oxygenUseMgGH = (tempC: number): number => 0.0711 * Math.exp(0.0749 * tempC);

/**
 * Ammonia that a gram of shrimp gives off in an hour.
 *
 *   R = 0.0113·e^(0.0530·t)
 *
 * @returns mg per g wet mass and hour, counted as nitrogen: the abstract does not say of what, and this is the worse reading
 * Error: r = 0.747; range and source as of `oxygenUseMgGH`
 */
export const ammoniaMgGH = (tempC: number): number => 0.0113 * Math.exp(0.053 * tempC);

/** A law R = c·W^−b of a rate by wet mass, with the mass in g at which it gives the published mean rate. */
interface MassLaw {
  readonly exponent: number;
  readonly meanMassG: number;
}

const massLaw = (coefficient: number, exponent: number, meanRate: number): MassLaw => ({
  exponent,
  meanMassG: (meanRate / coefficient) ** (-1 / exponent),
});

/**
 * The laws by mass of the same study: oxygen 0.3114·W^−0.2414 with a mean of 0.3901, ammonia 0.0307·W^−0.3007 with a mean of 0.0379
 * mg/g/h. They pass through the mean at 0.39 and 0.50 g.
 */
export const massLaws = {
  oxygen: massLaw(0.3114, 0.2414, 0.3901),
  ammonia: massLaw(0.0307, 0.3007, 0.0379),
} as const;

/**
 * How many times the rate of the tests' mean animal one of this mass has.
 *
 *   (W / W_mean)^−b
 *
 * @param massG  wet mass, g; measured from 0.12 to 1.93
 * Error: r = −0.44 (oxygen) and −0.66 (ammonia). A saleable dwarf shrimp weighs a third of the least mass that was measured, so this
 * reaches beyond the data: read it as an upper bound.
 */
export const timesMeanRate = ({ exponent, meanMassG }: MassLaw, massG: number): number =>
  (massG / meanMassG) ** -exponent;
