/** Bicarbonate of 1 °dKH, eq/L: 17.848 mg/L as CaCO3 at 50.04 g/eq. */
const equivalentsPerDkh = 17.848 / 50_040;

/** Carbon dioxide breathed out by oxygen used, mol/mol: the least that is usual, fat alone. From memory. */
const leastQuotient = 0.7;

/**
 * First dissociation of carbonic acid, −log₁₀ K₁.
 *
 *   log K₁ = −356.3094 − 0.06091964·T + 21834.37/T + 126.8339·log T − 1684915/T²
 *
 * @param tempC  °C, 0 to 90
 * Source: Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46: 1011–1040, as printed in public geochemical programs.
 */
export function carbonicPk1(tempC: number): number {
  const t = tempC + 273.15;
  return 356.3094 + 0.06091964 * t - 21_834.37 / t - 126.8339 * Math.log10(t) + 1_684_915 / t ** 2;
}

/**
 * Solubility of carbon dioxide, mol/(L·atm).
 *
 *   log K_H = 108.3865 + 0.01985076·T − 6919.53/T − 40.45154·log T + 669365/T²
 *
 * Range and source as of `carbonicPk1`.
 */
export function carbonDioxideMolLAtm(tempC: number): number {
  const t = tempC + 273.15;
  return 10 ** (108.3865 + 0.01985076 * t - 6919.53 / t - 40.45154 * Math.log10(t) + 669_365 / t ** 2);
}

/** A closed bag after some hours. */
export interface BreathedBag {
  /** pH at packing, 5 to 8.5. */
  readonly ph: number;
  /** Carbonate hardness at packing, °dKH, over 0. */
  readonly khDkh: number;
  readonly tempC: number;
  readonly waterL: number;
  readonly gasL: number;
  /** Since packing, mg. */
  readonly oxygenUsedMg: number;
  /** Ammonia given off, mg N/L; each molecule binds an acid's. */
  readonly ammoniaMgNL: number;
}

/**
 * pH of a closed bag's water once the animals have breathed into it.
 *
 *   pH = pK₁ + log₁₀((alkalinity + ammonia) / (CO₂ at packing + CO₂ breathed out and dissolved))
 *
 * What is breathed out shares itself between water and gas by Henry's law; 0.7 mol for each of oxygen.
 *
 * Error: carbonate, other acids and salts are left out, so it is for water under about pH 8.5. What would be lost through the bag's own
 * film is not; it makes the fall smaller. Told beside a plan, never counted on.
 */
export function breathedPh({ ph, khDkh, tempC, waterL, gasL, oxygenUsedMg, ammoniaMgNL }: BreathedBag): number {
  const alkalinity = khDkh * equivalentsPerDkh;
  const pk1 = carbonicPk1(tempC);
  const atPacking = alkalinity * 10 ** (pk1 - ph);
  const waterByGas = carbonDioxideMolLAtm(tempC) * 0.082057 * (tempC + 273.15);
  const breathedMol = (leastQuotient * oxygenUsedMg) / 32_000;
  const dissolved = (breathedMol * waterByGas) / (waterL * waterByGas + gasL);
  return pk1 + Math.log10((alkalinity + ammoniaMgNL / 14_007) / (atPacking + dissolved));
}
