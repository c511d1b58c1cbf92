import {
  type By,
  fail,
  firstImpossible,
  type LocalDay,
  ok,
  type Refusal,
  type Result,
  type Weather,
} from '../../domain/index.ts';
import { type Desk, log } from '../desk.ts';
import { isName } from '../setup.ts';
import { plannedDay } from './judge.ts';
import { homeArea } from './places.ts';

export interface WeatherLogged {
  readonly weather: Weather;
  readonly entryId: number;
}

/** Keeps a forecast for a place on a day: the night's low and the day's high of the air, °C. */
export function logWeather(
  desk: Desk,
  by: By,
  input: { readonly day: LocalDay; readonly area: string; readonly lowC: number; readonly highC: number },
): Result<WeatherLogged, Refusal> {
  const tenth = (tempC: number): number => Math.round(tempC * 10) / 10;
  const [lowC, highC] = [tenth(input.lowC), tenth(input.highC)];
  const day = plannedDay(desk, input.day);
  if (!day.ok) return day;
  const refused = firstImpossible([
    ['low', lowC],
    ['high', highC],
  ]);
  if (refused !== null) return fail(refused);
  if (lowC > highC) {
    return fail({ kind: 'impossible-amount', amount: 'low', typed: lowC, min: -50, max: highC, whole: false });
  }
  const area = input.area.trim() || homeArea;
  if (!isName(area)) return fail({ kind: 'bad-name', noun: 'area', typed: input.area });
  const forecast = { day: day.value, area, lowC, highC };
  const at = desk.now();
  const entryId = log(desk, by, 'weather', `forecast for ${area}, ${day.value}: ${lowC} to ${highC} °C`, (entry) => {
    desk.store.weather.addWeather(entry, { ...forecast, at });
  });
  return ok({ weather: { ...forecast, at, by: by.name }, entryId });
}

/** Places that forecasts were typed for or parcels go to, the last first. */
export const areasOf = (desk: Desk): string[] => [
  ...new Set([...desk.store.weather.areas(), ...desk.store.sales.areas(), homeArea]),
];
