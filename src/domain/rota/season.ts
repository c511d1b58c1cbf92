import type { LocalDay } from '../day.ts';
import type { ChoreSeason } from './chore.ts';
import type { Stretch } from './stretch.ts';

/** Countries that lie south of the equator for the greater part, ISO 3166-1. */
const southern = new Set(
  'AO AR AU BI BO BR BW CL CD FJ ID LS MG MU MW MZ NA NC NZ PE PF PG PY RE RW SZ TL TZ UY VU WS ZA ZM ZW'.split(' '),
);

/** Whether the warm months of a region are those from November to April; of an unknown one they are not. */
export const isSouthern = (region: string | null): boolean => southern.has(region?.slice(0, 2).toUpperCase() ?? '');

/** First and last day of the two halves of the year, by month and day. Common practice, no source. */
const halves = { summer: ['05-01', '10-31'], winter: ['11-01', '04-30'] } as const;

/** The season that runs on a day, or else the next one; null: all year. */
export function seasonOn(season: ChoreSeason, day: LocalDay, isSouth: boolean): Stretch | null {
  if (season === 'all') return null;
  const [first, last] = halves[(season === 'warm') === isSouth ? 'winter' : 'summer'];
  const year = Number(day.slice(0, 4));
  const years = [year - 1, year, year + 1].map((from) => {
    const until = first > last ? from + 1 : from;
    return { from: `${from}-${first}` as LocalDay, to: `${until}-${last}` as LocalDay };
  });
  return years.find(({ to }) => to >= day) ?? null;
}
