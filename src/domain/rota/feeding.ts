/** Feeds a week at two temperatures, °C. Common practice, no source: twice at 20 °C, three times at 23 to 24 °C. */
const cool = { tempC: 20, perWeek: 2 } as const;
const warm = { tempC: 23.5, perWeek: 3 } as const;
/** In cold water they are fed a third as often as in warm, not less (our choice). */
const mostTimesLonger = 3;

/**
 * Days from one feeding to the next, by the temperature of the water.
 *
 *   days = set · 3 / (2 + (t − 20)/3.5), whole, from once to three times the set days
 *
 * @param everyDays  the interval that is set, for water of 23.5 °C and more, days
 * @param tempC      null: not known, the interval holds as it is set
 * Source: the feeds a week are common practice, no source; a straight line between and beyond them is ours.
 */
export function feedingDays(everyDays: number, tempC: number | null): number {
  if (tempC === null) return everyDays;
  const perWeek = cool.perWeek + ((tempC - cool.tempC) * (warm.perWeek - cool.perWeek)) / (warm.tempC - cool.tempC);
  const longer = perWeek <= 0 ? mostTimesLonger : warm.perWeek / perWeek;
  return Math.round(everyDays * Math.min(mostTimesLonger, Math.max(1, longer)));
}
