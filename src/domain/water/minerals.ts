/** Scales of hardness: German degree, calcium carbonate, calcium and magnesium together, French degree, English (Clark) degree. */
export type HardnessUnit = 'dGH' | 'mg/L CaCO3' | 'mmol/L' | '°fH' | '°eH';

/** mg/L of calcium carbonate in one German degree: 10 mg/L CaO, by the molar masses 100.09 and 56.08 g/mol. */
export const caCO3PerDgh = 17.848;

/** How many of each unit one German degree is. */
const perDgh: Readonly<Record<HardnessUnit, number>> = {
  dGH: 1,
  'mg/L CaCO3': caCO3PerDgh,
  'mmol/L': caCO3PerDgh / 100.09,
  '°fH': caCO3PerDgh / 10,
  '°eH': caCO3PerDgh / 14.254,
};

/**
 * A hardness on the German scale, °dGH; carbonate hardness by the same factors, °dKH.
 * @param value  in `unit`, 0 and up
 * Error: of the factors under 0.01 %.
 * Source: definitions (1 °dGH = 10 mg/L CaO, 1 °fH = 10 mg/L CaCO3, 1 °eH = 1 grain in an imperial gallon = 14.254 mg/L CaCO3).
 * Checked: tests/published/hardness.csv.
 */
export const toDgh = (value: number, unit: HardnessUnit): number => value / perDgh[unit];

/** A hardness in °dGH (or °dKH) on another scale; the way back of `toDgh`. */
export const fromDgh = (dgh: number, unit: HardnessUnit): number => dgh * perDgh[unit];

/**
 * Usual factor from conductivity to dissolved solids, mg/L per µS/cm. Every water has its own: 0.55 to 0.8 in natural waters, 0.53 for
 * sodium chloride; there is no universal one (USGS National Field Manual). 0.64: common default, as general pages give it.
 */
export const usualTdsFactor = 0.64;

/** Gain of conductivity per °C, as a share of that at 25 °C: about 2 % (general pages; natural waters 1.9 to 2.2 %). */
export const usualEcGain = 0.02;

/**
 * Conductivity as it would be at 25 °C.
 *
 *   EC₂₅ = EC / (1 + gain·(t − 25))
 *
 * @param ecMicroS  as measured, µS/cm, 0 and up
 * @param tempC     of the sample, °C, 0 to 40
 * @param gain      share per °C, `usualEcGain` where the water's own is not known
 * Error: about 2 % within 10 °C of 25. Source: linear compensation, as meters do it.
 */
export const ecAt25 = (ecMicroS: number, tempC: number, gain: number): number => ecMicroS / (1 + gain * (tempC - 25));

/**
 * Dissolved solids by conductivity: TDS = factor·EC₂₅.
 * @param ec25MicroS  conductivity at 25 °C, µS/cm
 * @param factor      of this water, mg/L per µS/cm, 0.5 to 0.8
 * @returns mg/L. Error: that of the factor, up to 20 % where the usual one is taken.
 */
export const tdsOfEc = (ec25MicroS: number, factor: number): number => ec25MicroS * factor;

/** Conductivity at 25 °C by dissolved solids, µS/cm; the way back of `tdsOfEc`. */
export const ecOfTds = (tdsMgL: number, factor: number): number => tdsMgL / factor;
