import {
  addDays,
  type DispatchJudgement,
  fail,
  type Instant,
  isGoodDay,
  judgeDispatch,
  type LocalDay,
  nextGoodDay,
  ok,
  type Refusal,
  type Result,
} from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';
import { type Destination, endsOf, isAbroad, isIsland, onItsWay } from './places.ts';

/** Days past a judged one that may matter: the search for the next good day and the way of a parcel sent then. */
const reachDays = 430;

/** A day with its verdict, and the next one that is good as days go; null: none within a year. */
export interface JudgedDay extends DispatchJudgement {
  readonly good: boolean;
  readonly next: LocalDay | null;
}

/** How days look for parcels to a place, seen from `today`; the rules and figures are read once. */
export function judgeFor(
  desk: Desk,
  to: Destination,
  from: LocalDay,
  seen: { readonly today: LocalDay; readonly now: Instant } = { today: todayOf(desk), now: desk.now() },
): (day: LocalDay) => DispatchJudgement {
  const business = businessOf(desk);
  const windows = desk.store.seasons.windows();
  const weather = onItsWay(desk.store.weather.weather(from, addDays(from, reachDays)), to);
  const holidays = {
    sender: holidaysFrom(desk, business.region, from),
    buyer: holidaysFrom(desk, to.region ?? business.region, from),
  };
  const { dispatchDays, transitDays, slackDays, claimHours, minTempC, maxTempC } = business;
  const rules = { dispatchDays, transitDays, slackDays, claimHours, minTempC, maxTempC };
  const partners = desk.store.settings.partners();
  const abroad = isAbroad(business, to);
  const island = isIsland(business, to);
  const ends = endsOf(to);
  return (day) => judgeDispatch({ ...rules, ...seen, day, windows, holidays, weather, partners, ends, abroad, island });
}

/** Holidays looked up before, by region and year: a calendar does not change while the program runs, and reading one takes a while. */
const lookedUp = new WeakMap<Desk['holidays'], Map<string, ReturnType<Desk['holidays']>>>();

function holidaysIn({ holidays }: Desk, region: string, year: number): ReturnType<Desk['holidays']> {
  const known = lookedUp.get(holidays) ?? new Map<string, ReturnType<Desk['holidays']>>();
  lookedUp.set(holidays, known);
  const key = `${region} ${year}`;
  const found = known.get(key) ?? holidays(region, year);
  known.set(key, found);
  return found;
}

function holidaysFrom(desk: Desk, region: string | null, from: LocalDay): ReadonlyMap<LocalDay, string> {
  if (region === null) return new Map();
  const year = Number(from.slice(0, 4));
  const years = [year, year + 1, year + 2];
  return new Map(years.flatMap((each) => holidaysIn(desk, region, each).map(({ day, name }) => [day, name] as const)));
}

const later = (a: LocalDay, b: LocalDay): LocalDay => (a < b ? b : a);

/** May a parcel to this place leave on that day, and if not, when next. */
export function judgeDay(desk: Desk, day: LocalDay, to: Destination): JudgedDay {
  const from = later(day, todayOf(desk));
  const judge = judgeFor(desk, to, from);
  const judged = day === from ? judge(day) : judgeFor(desk, to, day)(day);
  return { ...judged, good: isGoodDay(judged), next: nextGoodDay(from, judge) };
}

/** The first good day after today for a parcel to this place; null: none within a year. */
export function nextDayFor(desk: Desk, to: Destination): LocalDay | null {
  const today = todayOf(desk);
  return nextGoodDay(today, judgeFor(desk, to, today));
}

/** A sale's dispatch day judged as of now; null where it has none. */
export const judgeSale = (desk: Desk, sale: Pick<BookedSale, 'dispatchOn' | 'area' | 'region'>): JudgedDay | null =>
  sale.dispatchOn === null ? null : judgeDay(desk, sale.dispatchOn, sale);

/** Days ahead on which parcels to the sender's own region may leave, today included. */
export function dispatchDaysAhead(desk: Desk, days: number): DispatchJudgement[] {
  const today = todayOf(desk);
  const judge = judgeFor(desk, { area: null, region: null }, today);
  return Array.from({ length: days }, (_, ahead) => judge(addDays(today, ahead))).filter(isGoodDay);
}

/** A day that somebody plans for: not past. */
export function plannedDay(desk: Desk, day: LocalDay): Result<LocalDay, Refusal> {
  const today = todayOf(desk);
  return day < today ? fail({ kind: 'past-day', day, today }) : ok(day);
}
