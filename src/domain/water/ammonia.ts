/**
 * Share of total ammonia that is un-ionised (NH3) in fresh water.
 *
 *   pKa = 0.09018 + 2729.92 / T        share = 1 / (10^(pKa − pH) + 1)        T = t + 273.15
 *
 * @param ph     dimensionless, 4 to 11
 * @param tempC  water temperature, °C, 0 to 50
 * @returns share, 0 to 1
 * Source: Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32: 2379–2383, doi 10.1139/f75-274 (valid 0–50 °C, no
 * salt). Copies that print 2727.92 carry a typing error (1.5 % off at 25 °C).
 * Checked: tests/published/ammonia-trussell-1972.csv, within 2 % from pH 7.3 up.
 */
export function unionisedShare(ph: number, tempC: number): number {
  const pKa = 0.09018 + 2729.92 / (tempC + 273.15);
  return 1 / (10 ** (pKa - ph) + 1);
}
