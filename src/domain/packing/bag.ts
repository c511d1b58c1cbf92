export const bagKinds = ['ordinary', 'breathable'] as const;
export type BagKind = (typeof bagKinds)[number];

/** A closed bag. */
export interface Bag {
  readonly kind: BagKind;
  /** Animals in it, whole and at least 1. */
  readonly animals: number;
  readonly waterL: number;
  /** Gas above the water, L; none in a breathable bag. */
  readonly gasL: number;
  /** Oxygen in that gas, or in the air about a breathable bag, share by volume. */
  readonly gasOxygenShare: number;
}

/** Oxygen in air, share by volume. */
export const airOxygenShare = 0.2095;

/** Air above the water of an ordinary bag, times the water. At least double: common practice, no source. */
const airTimesWater = 2;

/** A bag as it is filled by the plan: an ordinary one with air above the water, a breathable one to the knot. */
export const filledBag = (kind: BagKind, animals: number, waterL: number): Bag => ({
  kind,
  animals,
  waterL,
  gasL: kind === 'ordinary' ? airTimesWater * waterL : 0,
  gasOxygenShare: airOxygenShare,
});

/** Share of a breathable bag's film with air at it, the rest lying against something. Assumed. */
const freeFilm = 0.5;

/**
 * The surface through which a bag gets oxygen, dm².
 *
 * The water of an ordinary bag has the surface of one side of a cube that holds the whole bag: a bag lying flat has more, one stood on a
 * corner less. A breathable bag has half of such a cube's six sides. Assumed.
 */
export const surfaceDm2 = ({ kind, waterL, gasL }: Bag): number =>
  kind === 'ordinary' ? (waterL + gasL) ** (2 / 3) : freeFilm * 6 * waterL ** (2 / 3);

/**
 * Oxygen in a litre of moist gas at 30 °C and 1 atm, mg: a warm bag's, as it holds least.
 *
 *   share·(1 − vapour)·32.00 g/mol / (0.082057 L·atm/(mol·K)·303.15 K)
 */
export const gasOxygenMgL = (share: number): number => (share * (1 - 0.0418) * 32_000) / (0.082057 * 303.15);
