import { type RateCurve, type RateSupport, supportAt, valueAt } from './rateCurve.ts';
import type { RateSpread } from './rateSpread.ts';

const anchored = (at20: number, at23: number, at26: number): RateCurve => [
  { at: 20, value: at20, from: 'published' },
  { at: 23, value: at23, from: 'published' },
  { at: 26, value: at26, from: 'published' },
];

const median = anchored(0.65, 0.5, 0.35);
const low = anchored(0.44, 0.33, 0.15);
const high = anchored(0.8, 0.59, 0.5);

/**
 * Share of females among those that grow up at a temperature. A tendency, cooler means more females, not a figure to count on.
 *
 * @param tempC  °C; 20 to 26 published or between, held beyond
 * Error: the band is the source's own doubt. Its abstract gives a "female/male ratio" of 80 % at 20, about 50 % at 23 and 18 % at 26 °C: read
 * as a share that is the outer end, read as a ratio 0.44, 0.33 and 0.15; a warm stream had 45 to 59 % females, 50.5 on average. Medians are
 * drawn towards even.
 * Source: Serezli et al. 2017, Fresenius Environ. Bull. 26(12): 7575; Schoolmann & Arndt 2018, Limnologica (abstracts read).
 * Checked: tests/published/femaleShare.csv.
 */
export const femaleShare = (tempC: number): RateSpread => ({
  median: valueAt(median, tempC),
  low: valueAt(low, tempC),
  high: valueAt(high, tempC),
});

/** What the share at a temperature rests on. */
export const femaleShareSupport = (tempC: number): RateSupport => supportAt(median, tempC);
