/** Forms in which kits state nitrogen: NH3, NH4, NO2, NO3. */
export type NitrogenIon = 'ammonia' | 'ammonium' | 'nitrite' | 'nitrate';

/** Atomic masses, g/mol. Source: standard atomic weights, as published to five digits. */
const nitrogen = 14.007;
const hydrogen = 1.008;
const oxygen = 15.999;

/** mg of each form that hold 1 mg of nitrogen: 1.2159, 1.2879, 3.2844 and 4.4266. */
export const perNitrogen: Readonly<Record<NitrogenIon, number>> = {
  ammonia: (nitrogen + 3 * hydrogen) / nitrogen,
  ammonium: (nitrogen + 4 * hydrogen) / nitrogen,
  nitrite: (nitrogen + 2 * oxygen) / nitrogen,
  nitrate: (nitrogen + 3 * oxygen) / nitrogen,
};

/**
 * Concentration of the ion or molecule from that of its nitrogen.
 *
 *   c_ion = c_N · M_ion / M_N
 *
 * @param nitrogenMgL  as nitrogen, mg N/L, 0 and up
 * @returns mg/L of the form itself. Error: none beside that of the masses (under 0.01 %).
 * Source: atomic masses.
 */
export const ionOf = (ion: NitrogenIon, nitrogenMgL: number): number => nitrogenMgL * perNitrogen[ion];

/**
 * Nitrogen in a concentration of the ion or molecule; the way back of `ionOf`.
 * @param ionMgL  mg/L of the form itself, 0 and up
 * @returns mg N/L
 */
export const nitrogenOf = (ion: NitrogenIon, ionMgL: number): number => ionMgL / perNitrogen[ion];
