// The library's calendar against published lists, day by day. A holiday on a Saturday or Sunday for which a substitute day
// is kept stands in the library's list and not in the published ones: it is allowed for by name, nothing else is.
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { amended, publicHolidays } from '../../src/calendar/index.ts';
import { day, weekdayOf } from '../../src/domain/index.ts';

interface Row {
  readonly region: string;
  readonly year: number;
  readonly days: readonly string[];
}

function published(file: string): Row[] {
  return readFileSync(new URL(`../published/${file}`, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#') && !line.startsWith('region,'))
    .map((line) => {
      const [, region = '', year = '', days = ''] = /^([^,]+),(\d{4}): (.+)$/.exec(line) ?? [];
      return { region, year: Number(year), days: days.replaceAll('*', '').split(' ') };
    });
}

const onWeekdays = (region: string, year: number): string[] =>
  publicHolidays(region, year)
    .filter((holiday) => weekdayOf(holiday.day) < 6)
    .map((holiday) => holiday.day.slice(5));

afterEach(() => vi.unstubAllEnvs());

describe('public holidays', () => {
  // GOV.UK, commit cb2a016: three nations, four years, every date.
  it.each(published('bankHolidaysUk.csv'))('are those of GOV.UK: $region $year', ({ region, year, days }) => {
    expect(onWeekdays(region, year)).toEqual(days);
    const names = publicHolidays(region, year).map((holiday) => holiday.name);
    for (const holiday of publicHolidays(region, year).filter(({ day: on }) => weekdayOf(on) >= 6)) {
      expect(names).toContain(`${holiday.name} (substitute day)`);
    }
  });

  it.each(published('holidaysElsewhere.csv'))('are the known ones on weekdays: $region $year', (row) => {
    expect(onWeekdays(row.region, row.year)).toEqual(row.days);
  });

  // One-off days after the same GOV.UK data: VE day moved 2020, jubilee and funeral 2022, coronation 2023.
  it.each([
    [2020, '05-08', '05-04'],
    [2022, '06-02', '05-30'],
    [2022, '06-03', '05-30'],
    [2022, '09-19', '05-30'],
    [2023, '05-08', '05-09'],
  ])('know the one-off days of England: %i-%s is one, %s is none', (year, oneOff, ordinary) => {
    expect(onWeekdays('GB-ENG', year)).toContain(oneOff);
    expect(onWeekdays('GB-ENG', year)).not.toContain(ordinary);
  });

  it('belong to the year in which they are kept, also when that is the year before their own', () => {
    // 1 January 2028 is a Saturday: US federal offices keep Friday 31 December 2027.
    expect(publicHolidays('US', 2027).map((holiday) => holiday.day)).toContain('2027-12-31');
    expect(publicHolidays('US', 2028).every((holiday) => holiday.day.startsWith('2028-'))).toBe(true);
  });

  it('last as many days as they are kept', () => {
    const eid = publicHolidays('AE', 2026).filter((holiday) => holiday.name === 'End of Ramadan (Eid al-Fitr)');
    expect(eid.map((holiday) => holiday.day)).toEqual(['2026-03-20', '2026-03-21', '2026-03-22']);
  });

  it.each([
    ['UTC', 2031],
    ['Pacific/Auckland', 2037],
    ['America/Los_Angeles', 2042],
  ])('do not depend on a machine in %s', (zone, year) => {
    vi.stubEnv('TZ', zone);
    expect(Intl.DateTimeFormat().resolvedOptions().timeZone).toBe(zone);
    // Years that no other test asks for, so that nothing is remembered. Fixed dates, from memory.
    expect(publicHolidays('NZ', year).map((holiday) => holiday.day)).toContain(`${year}-02-06`);
    expect(publicHolidays('US', year).map((holiday) => holiday.day)).toContain(`${year}-07-04`);
    expect(publicHolidays('GB-NIR', year).map((holiday) => holiday.day)).toContain(`${year}-03-17`);
    expect(publicHolidays('NZ', year).every((holiday) => holiday.day.startsWith(`${year}-`))).toBe(true);
  });

  it('are read for a country, a state and a city region; GB without a nation is England', () => {
    const names = (region: string): string[] => publicHolidays(region, 2027).map((holiday) => holiday.day);
    expect(names('gb')).toEqual(names('GB-ENG'));
    expect(names('AT-9')).toContain('2027-10-26');
    expect(names('DE-BY-A')).toContain('2027-08-08');
    expect(names('DE-BY')).not.toContain('2027-08-08');
  });

  it('throw on a region nobody knows', () => {
    expect(() => publicHolidays('XX', 2027)).toThrow('XX');
  });
});

describe('amendments', () => {
  const may = { day: day('2031-05-05'), name: 'Early May' };
  const change = { region: 'GB-SCT', day: may.day, name: may.name, source: 'made up for this test' };

  it('remove and add days of their region and year only', () => {
    const moved = [
      { ...change, change: 'removed' as const },
      { ...change, day: day('2031-05-09'), name: 'Moved', change: 'added' as const },
    ];
    expect(amended([may], 'GB-SCT', 2031, moved)).toEqual([{ day: '2031-05-09', name: 'Moved' }]);
    expect(amended([may], 'GB-ENG', 2031, moved)).toEqual([may]);
    expect(amended([may], 'GB-SCT', 2030, moved)).toEqual([may]);
  });

  it('of a country hold in its parts, and a day is named once', () => {
    const doubled = [{ ...change, region: 'GB', change: 'added' as const }];
    expect(amended([may], 'GB-SCT', 2031, doubled)).toEqual([may]);
    expect(amended([], 'GB-SCT', 2031, doubled)).toEqual([may]);
  });
});
