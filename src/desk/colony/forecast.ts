import {
  addDays,
  type BreedersWanted,
  breedersToHold,
  type Closing,
  closedBy,
  fail,
  firstOverDense,
  forecast,
  type Line,
  type LineForecast,
  type LineStock,
  type LocalDay,
  mayGive,
  nextClosing,
  type OneMoreTub,
  type Outlook,
  ok,
  oneMoreAdds,
  openDaysBetween,
  outlook,
  type Refusal,
  type Result,
  type SalesAhead,
  sustainableWeekly,
  type Tub,
  type TubNow,
  type TubStock,
  type WeeklyBorne,
  wantedStock,
} from '../../domain/index.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';
import { findLine } from '../find.ts';
import { stockOf } from '../tubs/stock.ts';
import { colonyNow } from './colony.ts';
import { paceOf } from './pace.ts';

export interface ForecastInput {
  /** Animals a week, extras included; as now if not given. */
  readonly weeklySales?: number | undefined;
  readonly until?: LocalDay | undefined;
}

/** More a week than any line bears. */
const mostWeekly = 1000;
/** Nearer than this nothing changes that could be told; further than this nothing can, days. */
const [nearest, furthest] = [7, 731];
/** Half a year: what is looked at where no day is given and no closed window ends. */
const halfYear = 182;
/** With fewer open days until the re-opening, the next season is what can be planned. */
const hardlyOpen = 14;
/** Effective size to keep: about 1 % of inbreeding a generation (common practice, no source). */
const wantedEffective = 50;
/** Stretch over which breeders are held where no window closes, days: a cold season (our choice). */
const breedersOver = 112;
/** Animals that start another tub, and the fewest that do (common practice, no source). */
const [starters, leastStarters] = [20, 10];

/** What is ahead of a line: its stock by month, what it bears a week, breeders, crowding, and what one more tub would add. */
export function forecastLine(desk: Desk, typedLine: string, input: ForecastInput = {}): Result<LineForecast, Refusal> {
  const found = findLine(desk, typedLine);
  if (!found.ok) return found;
  const line = found.value;
  const from = todayOf(desk);
  const fault = faultIn(input, from);
  if (fault !== null) return fail(fault);
  const stock = stockOf(desk, line);
  const giving = stock.tubs.filter(mayGive);
  if (giving.length === 0) return fail(nobodyGives(line, stock));
  const windows = desk.store.seasons.windows();
  const isOpen = (day: LocalDay): boolean => closedBy(windows, day) === null;
  const closing = nextClosing(windows, from);
  const sales = { promised: stock.promised + stock.promisedExtras, holdBack: line.holdBack, isOpen };
  const asNow = paceOf(desk, line, sales.promised);
  const weekly = input.weeklySales ?? asNow;
  const tubs = tubsNow(desk, giving);
  const told = input.until ?? closing?.opensOn ?? addDays(from, halfYear);
  const planned = input.until ?? plannedUntil(desk, from, closing);
  const future = outlook(tubs, from, planned);
  const days = forecast(tubs, from, planned, weekly, sales, future);
  const last = (told === planned ? days : forecast(tubs, from, told, weekly, sales)).at(-1);
  if (last === undefined) throw new Error('a forecast has today at least');
  const denseUntil = addDays(from, halfYear);
  const dense = firstOverDense(tubs, from, denseUntil);
  const tubOf = (id: number): Tub | undefined => giving.find(({ tub }) => tub.id === id)?.tub;
  const denseTub = dense === null ? undefined : tubOf(dense.tub.tub.id);
  return ok({
    line,
    from,
    closing,
    weekly,
    isAsked: input.weeklySales !== undefined,
    days,
    told: { ...last, on: told },
    bears: borne(tubs, { from, until: planned, future }, asNow, sales, openDaysBetween(windows, from, planned) > 0),
    breeders: breedersWanted(tubs, from, closing),
    overDense: dense === null || denseTub === undefined ? null : { ...dense, tub: denseTub },
    denseUntil,
    oneMore: oneMoreTub(giving, tubs, { from, until: told }, weekly, sales),
    tubs: giving.length,
    uncounted: stock.tubs.filter(({ members }) => members === null).map(({ tub }) => tub),
    shut: stock.tubs.filter((one) => one.members !== null && !mayGive(one)).map(({ tub }) => tub),
    sharpest: stock.sharpest?.tub ?? null,
  });
}

function faultIn({ weeklySales, until }: ForecastInput, today: LocalDay): Refusal | null {
  if (weeklySales !== undefined && !(weeklySales >= 0 && weeklySales <= mostWeekly)) {
    return { kind: 'weekly-impossible', typed: weeklySales, most: mostWeekly };
  }
  const [first, last] = [addDays(today, nearest), addDays(today, furthest)];
  if (until !== undefined && (until < first || until > last)) return { kind: 'not-foreseen', day: until, first, last };
  return null;
}

function nobodyGives(line: Line, { tubs, uncounted }: LineStock): Refusal {
  const counted = tubs.filter(({ members }) => members !== null).map(({ tub }) => tub.name);
  return counted.length === 0
    ? { kind: 'not-counted', line: line.name, tubs: uncounted }
    : { kind: 'none-on-sale', line: line.name, tubs: counted };
}

/** The re-opening that sales from now on lead up to: the next one, or, where hardly a day is open before it, the one after. */
function plannedUntil(desk: Desk, from: LocalDay, closing: Closing | null): LocalDay {
  if (closing === null) return addDays(from, halfYear);
  const windows = desk.store.seasons.windows();
  if (openDaysBetween(windows, from, closing.opensOn) >= hardlyOpen) return closing.opensOn;
  return nextClosing(windows, closing.opensOn)?.opensOn ?? closing.opensOn;
}

function tubsNow(desk: Desk, stocks: readonly TubStock[]): TubNow[] {
  const business = businessOf(desk);
  return stocks.flatMap((stock) => {
    const { tub, colony } = colonyNow(desk, business, stock.tub);
    return colony === null ? [] : [{ tub, colony }];
  });
}

function borne(
  tubs: readonly TubNow[],
  { from, until, future }: { readonly from: LocalDay; readonly until: LocalDay; readonly future: Outlook },
  asNow: number,
  sales: SalesAhead,
  isOpen: boolean,
): WeeklyBorne {
  const stock = wantedStock(asNow);
  const weekly = isOpen ? sustainableWeekly(tubs, from, { on: until, stock }, sales, future) : null;
  return { weekly, until, isOpen, stock, isMonth: stock > wantedStock(0) };
}

/** Breeders over the closed stretch, or what is left of it; over the coming months where there is none. */
function breedersWanted(tubs: readonly TubNow[], from: LocalDay, closing: Closing | null): BreedersWanted {
  const [first, last] = closing === null ? [from, addDays(from, breedersOver)] : [closing.closesOn, closing.opensOn];
  return { ...breedersToHold(tubs, first, last, wantedEffective), from: first, until: last, wanted: wantedEffective };
}

/** Another tub like the fullest, stocked from what that has over its breeders. */
function oneMoreTub(
  stocks: readonly TubStock[],
  tubs: readonly TubNow[],
  span: { readonly from: LocalDay; readonly until: LocalDay },
  weekly: number,
  sales: SalesAhead,
): OneMoreTub | null {
  const fullest = stocks.reduce((best, one) => ((one.saleable ?? 0) > (best.saleable ?? 0) ? one : best));
  const now = tubs.find(({ tub }) => tub.id === fullest.tub.id);
  const number = Math.min(starters, (fullest.saleable ?? 0) - sales.holdBack);
  if (now === undefined || number < leastStarters) return null;
  const itsPart = { ...sales, promised: sales.promised / tubs.length };
  const another = { ...now.tub, id: Math.max(...stocks.map(({ tub }) => tub.id)) + 1 };
  return {
    like: fullest.tub,
    number,
    adds: oneMoreAdds(now, another, number, span, weekly / tubs.length, itsPart),
  };
}
