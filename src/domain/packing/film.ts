import { airOxygenShare } from './bag.ts';

/** mg of oxygen in 1 mL of gas at 0 °C and 1 atm: 32.00 g/mol over 22.414 L/mol. */
const mgPerMl = 32 / 22.414;

/** Energy with which the permeability of low-density polyethylene for oxygen rises with warmth, J/mol. */
const activationJMol = 31_300;

/**
 * Speed at which oxygen comes through a breathable bag's film, m/h of water: its flow by atm over the oxygen that water holds by atm.
 *
 *   P₂₅·e^(−E/R·(1/T − 1/298.15)) / S
 *
 * @param tempC            °C, 0 to 40
 * @param saturationMgL    oxygen of water in balance with air at this temperature, mg/L
 * @param filmMlM2DayAtm  permeability at 25 °C, mL a day by m² and atm; see `PackingFigures`
 * Source: energy of 31.3 kJ/mol: permeation through a low-density polyethylene film, Polymer International 30: 109–113, 1993 (abstract).
 */
export function filmMH(tempC: number, saturationMgL: number, filmMlM2DayAtm: number): number {
  const warmth = Math.exp((-activationJMol / 8.314462618) * (1 / (tempC + 273.15) - 1 / 298.15));
  const mgM2HAtm = (filmMlM2DayAtm * mgPerMl * warmth) / 24;
  const mgM3Atm = (saturationMgL * 1000) / airOxygenShare;
  return mgM2HAtm / mgM3Atm;
}
