import { nitrogenOf } from './nitrogen.ts';

/**
 * Chronic criterion for total ammonia where early life stages are present: what water life bears as a mean of 30 days.
 *
 *   (0.0577/(1 + 10^(7.688−pH)) + 2.487/(1 + 10^(pH−7.688))) · min(2.85, 1.45·10^(0.028·(25−t)))
 *
 * @param ph     6.5 to 9.0
 * @param tempC  water temperature, °C, 0 to 30
 * @returns total ammonia as nitrogen, mg N/L
 * Error: a guideline for North American waters, fish and mussels mostly; no figure for *Neocaridina* was found.
 * Source: US EPA 1999, Update of Ambient Water Quality Criteria for Ammonia, EPA-822-R-99-014; the equation as in South Dakota
 * ARSD 74:51:01, Appendix A. Checked: tests/published/ammoniaCriterionEpa1999.csv.
 */
export function chronicCriterionMgNL(ph: number, tempC: number): number {
  const byPh = 0.0577 / (1 + 10 ** (7.688 - ph)) + 2.487 / (1 + 10 ** (ph - 7.688));
  return byPh * Math.min(2.85, 1.45 * 10 ** (0.028 * (25 - tempC)));
}

/**
 * Acute criterion for total ammonia without salmon or trout: what water life bears as a mean of one hour.
 *
 *   0.411/(1 + 10^(7.204−pH)) + 58.4/(1 + 10^(pH−7.204))
 *
 * @param ph  6.5 to 9.0
 * @returns total ammonia as nitrogen, mg N/L; error and source as of the chronic criterion
 */
export const acuteCriterionMgNL = (ph: number): number =>
  0.411 / (1 + 10 ** (7.204 - ph)) + 58.4 / (1 + 10 ** (ph - 7.204));

/** A reading of total ammonia beside the criteria. */
export interface AmmoniaComparison {
  /** The reading as nitrogen, mg N/L. */
  readonly nitrogenMgL: number;
  readonly chronicMgNL: number;
  readonly acuteMgNL: number;
  /** Reading over chronic criterion: 1 is at it, 0.5 half of it. */
  readonly timesChronic: number;
  readonly over: 'neither' | 'chronic' | 'acute';
}

/**
 * Compares a kit's reading with the published criteria.
 * @param totalMgL  total ammonia as the ion (NH4), mg/L, as stored; a kit that counts NH3 holds 6 % more nitrogen
 * @param ph        6.5 to 9.0
 * @param tempC     °C, 0 to 30
 */
export function compareAmmonia(totalMgL: number, ph: number, tempC: number): AmmoniaComparison {
  const nitrogenMgL = nitrogenOf('ammonium', totalMgL);
  const chronicMgNL = chronicCriterionMgNL(ph, tempC);
  const acuteMgNL = acuteCriterionMgNL(ph);
  const isOverChronic = nitrogenMgL > chronicMgNL;
  return {
    nitrogenMgL,
    chronicMgNL,
    acuteMgNL,
    timesChronic: nitrogenMgL / chronicMgNL,
    over: nitrogenMgL > acuteMgNL ? 'acute' : isOverChronic ? 'chronic' : 'neither',
  };
}
