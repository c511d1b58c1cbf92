/** The air that a parcel travelled in: its coldest night and its hottest day. */
export const airBands = ['cold', 'mild', 'warm', 'unknown'] as const;
export type AirBand = (typeof airBands)[number];

/** A night colder than this is a cold way, °C: sellers of hardy shrimp add heat below it. Common practice, no source. */
export const coldBelowC = 8;
/** A day hotter than this is a warm way, °C: some sellers promise arrival above it by overnight service alone. Common practice, no source. */
export const warmAboveC = 24;

/** The band of a way by the forecasts that were kept of it; of a way both cold and warm the cold night counts, as it is the longer. */
export function airBandOf(forecasts: readonly { readonly lowC: number; readonly highC: number }[]): AirBand {
  if (forecasts.length === 0) return 'unknown';
  if (forecasts.some(({ lowC }) => lowC < coldBelowC)) return 'cold';
  return forecasts.some(({ highC }) => highC > warmAboveC) ? 'warm' : 'mild';
}
