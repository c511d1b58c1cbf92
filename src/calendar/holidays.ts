import Holidays from 'date-holidays';
import { addDays, day, dayMs, hourMs, type LocalDay } from '../domain/index.ts';
import { type Amendment, amendments } from './amendments.ts';
import { type RegionParts, regionCode, regionParts } from './regions.ts';

/** A day on which a region keeps a public holiday. */
export interface PublicHoliday {
  readonly day: LocalDay;
  readonly name: string;
}

const known = new Map<string, readonly PublicHoliday[]>();

/**
 * The public holidays of a region in a year, substitute days included, ascending, one entry a day. `GB` without a nation is
 * read as England, whose holidays most British addresses keep (common practice, no source). Throws on an unknown region:
 * ask `isRegion` first. Source: the date-holidays library, with the published corrections of amendments.ts.
 */
export function publicHolidays(region: string, year: number): readonly PublicHoliday[] {
  const parts = regionParts(region);
  const code = regionCode(region);
  if (parts === undefined || code === undefined) throw new Error(`no public holidays known for region ${region}`);
  const key = `${code} ${year}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const found = amended(fromLibrary(parts, year), code, year, amendments);
  known.set(key, found);
  return found;
}

/** `holidays` of a region's year with its amendments; a nation's amendments hold for the parts of it too. */
export function amended(
  holidays: readonly PublicHoliday[],
  region: string,
  year: number,
  changes: readonly Amendment[],
): PublicHoliday[] {
  const own = changes.filter(
    (change) =>
      (change.region === region || region.startsWith(`${change.region}-`)) && change.day.startsWith(`${year}-`),
  );
  const removed = new Set(own.filter(({ change }) => change === 'removed').map((change) => change.day));
  const added = own
    .filter(({ change }) => change === 'added')
    .map((change): PublicHoliday => ({ day: change.day, name: change.name }));
  return oncePerDay([...holidays.filter((holiday) => !removed.has(holiday.day)), ...added]);
}

function oncePerDay(holidays: readonly PublicHoliday[]): PublicHoliday[] {
  const byDay = new Map<LocalDay, PublicHoliday>();
  for (const holiday of holidays) if (!byDay.has(holiday.day)) byDay.set(holiday.day, holiday);
  return [...byDay.values()].sort((a, b) => (a.day < b.day ? -1 : 1));
}

function fromLibrary(parts: RegionParts, year: number): PublicHoliday[] {
  const state = parts.state ?? (parts.country === 'GB' ? 'ENG' : null);
  const place = {
    country: parts.country,
    ...(state === null ? {} : { state }),
    ...(parts.region === null ? {} : { region: parts.region }),
  };
  const library = new Holidays(place, { types: ['public'] });
  // A New Year's Day on a Saturday may be kept on the Friday, which lies in the year before.
  return [year - 1, year, year + 1]
    .flatMap((near) => library.getHolidays(near, 'en'))
    .flatMap(({ date, start, end, name }) => {
      const first = day(date.slice(0, 10));
      // One local day lasts 23 to 25 hours; holidays of several days last a multiple of that.
      const days = Math.max(1, Math.ceil((end.getTime() - start.getTime() - 2 * hourMs) / dayMs));
      return Array.from({ length: days }, (_, offset) => ({ day: addDays(first, offset), name }));
    })
    .filter((holiday) => holiday.day.startsWith(`${year}-`));
}
