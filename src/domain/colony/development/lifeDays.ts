import type { RateSpread } from './rateSpread.ts';

/**
 * Days that an animal lives after it is mature, if nothing else ends it.
 *
 * Low: 12 months of life in a stream less the 7 to the first eggs; high: up to 21 months in tanks less 3 months of growing up; median: their
 * geometric mean. 1 to 2 years of life at home fit in between (encyclopaedia copies).
 * Source: Schoolmann & Arndt 2018, Limnologica (abstract read). Checked: tests/published/lifeHistory.csv.
 */
export const lifeDays: RateSpread = { median: 290, low: 152, high: 548 };
