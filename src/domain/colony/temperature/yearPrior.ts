/** Which half of the world the rack stands in: it sets when the year is warm. */
export type Hemisphere = 'north' | 'south';

/** What is believed of a rack's year before a thermometer speaks, °C. */
export interface YearPrior {
  readonly meanC: number;
  readonly meanSdC: number;
  /** How much warmer than the mean 25 July is; below 0 where January is the warm month. */
  readonly julyC: number;
  /** Standard deviation of that, and of what a day a quarter of a year off is over the mean. */
  readonly swingSdC: number;
  /** Standard deviation of a day's water about the curve. */
  readonly weatherSdC: number;
}

/**
 * An unheated rack indoors: 20 °C over the year, 4 °C warmer at the height of summer and colder in winter; the height of summer indoors is
 * five weeks after the longest day. All figures are assumed; unheated homes in northern Portugal averaged 14.9 °C (bedrooms) and 16.6 °C
 * (living rooms) in winter (141 households, abstract read).
 *
 * @param hemisphere  null: not known; the swing is then 0 with a wider doubt and comes out of the readings alone
 */
export const yearPrior = (hemisphere: Hemisphere | null): YearPrior => ({
  meanC: 20,
  meanSdC: 2.5,
  julyC: hemisphere === null ? 0 : hemisphere === 'north' ? 4 : -4,
  swingSdC: hemisphere === null ? 4 : 2,
  weatherSdC: 1.2,
});
