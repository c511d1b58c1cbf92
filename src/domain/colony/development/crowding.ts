import type { RateSpread } from './rateSpread.ts';

/** Up to here nobody is in another's way, animals a litre. */
const uncrowdedPerLitre = 2.5;
/** Animals a litre over that which halve growth and survival of young; 10 and 90 % (assumption). */
const halvedBy: RateSpread = { median: 12.5, low: 4, high: 30 };

const factorAt = (perLitre: number, halved: number): number =>
  1 / (1 + Math.max(0, perLitre - uncrowdedPerLitre) / halved);

/**
 * Factor on growth and on survival of the young by density, over 0 to 1.
 *
 *   1 up to 2.5 a litre, then 1/(1 + (d − 2.5)/12.5): 0.83 at 5, 0.63 at 10, 0.42 at 20
 *
 * @param perLitre  d, animals of all sizes a litre of water, 0 and up
 * Error: `crowdingSpread`; the shape and its strength are assumed.
 * Source: 2.5, 5 and 10 a litre were compared and 2.5 did best: larger animals (Vazquez et al. 2017, J. Crust. Biol. 37: 367; the order from
 * a popular summary, no figures could be read). 10 a litre grows slowly: common practice, no source. Checked: tests/published/temperatureOrders.csv.
 */
export const crowding = (perLitre: number): number => factorAt(perLitre, halvedBy.median);

/** The factor of crowding with its 10 and 90 % quantile. */
export const crowdingSpread = (perLitre: number): RateSpread => ({
  median: crowding(perLitre),
  low: factorAt(perLitre, halvedBy.low),
  high: factorAt(perLitre, halvedBy.high),
});
