/** Mean pressure at sea level, kPa: the one that saturation tables are given for. */
export const standardPressureKPa = 101.325;

/**
 * Oxygen that fresh water holds in balance with moist air (100 % saturation), mg/L.
 *
 *   ln C* = −139.34411 + 1.575701·10⁵/T − 6.642308·10⁷/T² + 1.243800·10¹⁰/T³ − 8.621949·10¹¹/T⁴        at 1 atm
 *   C = C*·P·(1 − u/P)·(1 − θP) / ((1 − u)·(1 − θ))        P in atm
 *   ln u = 11.8571 − 3840.70/T − 216961/T²                 u: water vapour, atm
 *   θ = 0.000975 − 1.426·10⁻⁵ t + 6.436·10⁻⁸ t²            t in °C, T = t + 273.15
 *
 * @param tempC        water temperature, °C, 0 to 40
 * @param pressureKPa  pressure of the air at the tub, not reduced to sea level, kPa, 50 to 110
 * Error: 0.1 % at 1 atm by the authors (from memory).
 * Source: Benson & Krause 1984, Limnol. Oceanogr. 29: 620–632, as in APHA Standard Methods 4500-O; no salt.
 * Checked: tests/published/oxygenEn25814.csv and oxygenMontgomery1964.csv.
 */
export function oxygenSaturationMgL(tempC: number, pressureKPa: number): number {
  const t = tempC + 273.15;
  const atOneAtm = Math.exp(
    -139.34411 + 1.575701e5 / t - 6.642308e7 / t ** 2 + 1.2438e10 / t ** 3 - 8.621949e11 / t ** 4,
  );
  const pressure = pressureKPa / standardPressureKPa;
  const vapour = Math.exp(11.8571 - 3840.7 / t - 216_961 / t ** 2);
  const theta = 0.000975 - 1.426e-5 * tempC + 6.436e-8 * tempC ** 2;
  const departure = ((1 - vapour / pressure) * (1 - theta * pressure)) / ((1 - vapour) * (1 - theta));
  return atOneAtm * pressure * departure;
}

/**
 * Mean pressure of the air at a height, kPa: air in balance under its own weight at 0 °C throughout.
 *
 *   P = 101.325·exp(−h·M·g / (R·273.15))
 *
 * @param altitudeM  height above the sea, m, 0 to 1000
 * Error: within 1 mmHg (0.13 kPa) of the published table; the weather moves it by up to 5 kPa.
 * Source: hydrostatic balance. Checked: tests/published/oxygenAltitude.csv.
 */
export function pressureAtAltitudeKPa(altitudeM: number): number {
  const airKgMol = 0.0289644;
  const gravity = 9.80665;
  const gasConstant = 8.314462618;
  return standardPressureKPa * Math.exp((-altitudeM * airKgMol * gravity) / (gasConstant * 273.15));
}
