/** The temperatures of a parcel's way. */
export interface Way {
  /** The water when it is packed, °C. */
  readonly startC: number;
  /** The warmest and the coldest air on the way, °C; each is taken to last all the way. */
  readonly warmC: number;
  readonly coldC: number;
}

/** The water of a bag may not pass these, °C: where a tub's temperature is past watching. Common practice, no source. */
export const mostWaterC = 30;
export const leastWaterC = 5;

/**
 * Time constant of a box: how fast its water follows the air.
 *
 *   τ = m·c / UA        c = 4186 J/(kg·K)
 *
 * @param waterKg       water in the box, kg
 * @param conductanceWK  heat that the box lets through, W/K: area by conductivity over thickness
 * @returns h
 * Error: the film of air at the walls and the warmth of other contents are left out; both make a box slower.
 * Source: Newton's law of cooling. Checked: tests/published/parcelCooling.csv.
 */
export const timeConstantHours = (waterKg: number, conductanceWK: number): number =>
  (waterKg * 4186) / conductanceWK / 3600;

/**
 * Water of a box in air of a constant temperature.
 *
 *   T = T_air + (T_start − T_air)·e^(−t/τ)
 *
 * @returns °C
 * Source: Newton's law of cooling. Checked: tests/published/parcelCooling.csv.
 */
export const cooledC = (startC: number, airC: number, hours: number, tauHours: number): number =>
  airC + (startC - airC) * Math.exp(-hours / tauHours);

/**
 * A small box (0.3 kg of water, 25 mm of foam over 0.12 m²) has a time constant of 2 h, a large one of 1.2 kg one of 8 h. The faster is
 * taken where the air leads to harm, the slower where it leads away from it.
 */
export const followHours = { fast: 2, slow: 8 } as const;

/** The warmest that the water may be after some hours, °C: it warms fast and cools slowly. */
export const warmestC = (startC: number, airC: number, hours: number): number =>
  cooledC(startC, airC, hours, airC > startC ? followHours.fast : followHours.slow);

/**
 * Hours until the water of a small box passes a limit.
 * @returns 0 where it starts at or past it, infinite where it never gets there
 */
export function hoursToC(startC: number, airC: number, limitC: number, towards: 'heat' | 'cold'): number {
  const sign = towards === 'heat' ? 1 : -1;
  if (sign * (startC - limitC) >= 0) return 0;
  if (sign * (airC - limitC) <= 0) return Number.POSITIVE_INFINITY;
  return followHours.fast * Math.log((airC - startC) / (airC - limitC));
}
