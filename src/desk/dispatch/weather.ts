import {
  addDays,
  type By,
  type ForecastGap,
  fail,
  firstImpossible,
  folded,
  forecastNeededWithinDays,
  type LocalDay,
  ok,
  type Refusal,
  type Result,
  type Weather,
  wantedForecasts,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk, log, todayOf } from '../desk.ts';
import { salesOn } from '../sales/list.ts';
import { isName } from '../setup.ts';
import { type JudgedDay, judgeDay, plannedDay } from './judge.ts';
import { endsOf, homeArea, placeName } from './places.ts';

export interface WeatherLogged {
  readonly weather: Weather;
  /** The parcel that it tells of, the first to leave; null: none that is open. */
  readonly sale: number | null;
  /** The verdict on that parcel's day, else on the day itself for a parcel to that place. */
  readonly judged: JudgedDay;
  /** What is to be looked at next for the parcels that leave soon; null: nothing. */
  readonly next: ForecastGap | null;
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
  const area = placeName(input.area) || homeArea;
  if (!isName(area)) return fail({ kind: 'bad-name', noun: 'area', typed: input.area });
  const forecast = { day: day.value, area, lowC, highC };
  const at = desk.now();
  const entryId = log(desk, by, 'weather', `forecast for ${area}, ${day.value}: ${lowC} to ${highC} °C`, (entry) => {
    desk.store.weather.addWeather(entry, { ...forecast, at });
  });
  return ok({ weather: { ...forecast, at, by: by.name }, ...toldBy(desk, forecast), entryId });
}

/** What a forecast says of the parcels that leave soon. */
function toldBy(
  desk: Desk,
  { day, area }: Pick<Weather, 'day' | 'area'>,
): Pick<WeatherLogged, 'sale' | 'judged' | 'next'> {
  const parcels = parcelsSoon(desk);
  const { transitDays, slackDays } = businessOf(desk);
  const told = parcels.find(({ sale, judged }) => {
    const { from, to } = endsOf(sale);
    const isThere = [from, to ?? from].some((end) => folded(end) === folded(area));
    return isThere && day >= judged.day && day <= addDays(judged.day, transitDays + slackDays);
  });
  const gaps = [...(told === undefined ? [] : [told]), ...parcels].flatMap(({ judged }) =>
    judged.good ? wantedForecasts(judged.reasons) : [],
  );
  const to = { area: area === homeArea ? null : area, region: null };
  return {
    sale: told?.sale.id ?? null,
    judged: told?.judged ?? judgeDay(desk, day, to),
    next: gaps[0] ?? null,
  };
}

/** Open parcels that leave while a forecast for them must be looked at, in the order of their days, each judged. */
export function parcelsSoon(desk: Desk): { readonly sale: BookedSale; readonly judged: JudgedDay }[] {
  const today = todayOf(desk);
  return Array.from({ length: forecastNeededWithinDays + 1 }, (_, ahead) => addDays(today, ahead)).flatMap((day) => {
    const { paid, unpaid } = salesOn(desk, day);
    return [...paid, ...unpaid].map((sale) => ({ sale, judged: judgeDay(desk, day, sale) }));
  });
}

/** Places that forecasts were typed for or parcels go to, the last first. */
export const areasOf = (desk: Desk): string[] => [
  ...new Set([...desk.store.weather.areas(), ...desk.store.sales.areas(), homeArea]),
];
