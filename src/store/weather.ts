import type { Database } from 'better-sqlite3';
import type { Instant, LocalDay, Weather } from '../domain/index.ts';

interface WeatherRow {
  day: LocalDay;
  area: string;
  low_c: number;
  high_c: number;
  at: Instant;
  user_name: string;
}

/** Forecasts that were typed in. */
export function weatherStore(db: Database) {
  const insert = db.prepare(
    'INSERT INTO weather (entry_id, day, area, low_c, high_c, at) VALUES (@entryId, @day, @area, @lowC, @highC, @at)',
  );
  const between = db.prepare<[LocalDay, LocalDay], WeatherRow>(`
    SELECT w.*, e.user_name FROM weather w JOIN live_entry e ON e.id = w.entry_id
    WHERE w.day BETWEEN ? AND ? ORDER BY w.id`);
  const areas = db.prepare<[], { area: string }>(`
    SELECT w.area FROM weather w JOIN live_entry e ON e.id = w.entry_id GROUP BY w.area ORDER BY max(w.id) DESC LIMIT 25`);

  return {
    addWeather: (entryId: number, weather: Pick<Weather, 'day' | 'area' | 'lowC' | 'highC' | 'at'>): void => {
      insert.run({ ...weather, entryId });
    },
    /** Forecasts for the days from one to another, both included, in the order in which they were typed. */
    weather: (from: LocalDay, to: LocalDay): Weather[] =>
      between.all(from, to).map((row) => ({
        day: row.day,
        area: row.area,
        lowC: row.low_c,
        highC: row.high_c,
        at: row.at,
        by: row.user_name,
      })),
    /** Places that forecasts were typed for, the last first. */
    areas: (): string[] => areas.all().map(({ area }) => area),
  };
}
