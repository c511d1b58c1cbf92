import {
  addDays,
  choreMinutes,
  dayOf,
  daysIn,
  daysInUse,
  daysWithin,
  isWithin,
  type LocalDay,
  leastDays,
  litresInUse,
  type MoneyReport,
  type MoneyYear,
  type MonthDay,
  moneyByLine,
  moneyOfRest,
  moneyTotals,
  monthsIn,
  newTubCostMinor,
  type Payback,
  type Period,
  paybackMonths,
  perEach,
  perTen,
  type Tub,
  taxYearStart,
  tubEarnings,
  type WorkDone,
} from '../../domain/index.ts';
import { businessOf, type Desk, todayOf } from '../desk.ts';
import { allChores } from '../rota/chores.ts';
import { type Books, booksOf, booksWithin } from './books.ts';
import { spanOf } from './span.ts';

/** What money came to in some days; of days that are not over, up to today. */
export const moneyReport = (desk: Desk, period: Period): MoneyReport => reportOf(desk, period, booksOf(desk, period));

/** The same of a year, with its months from the first money up to today. */
export function moneyYear(desk: Desk, year: Period): MoneyYear {
  const books = booksOf(desk, year);
  const today = todayOf(desk);
  const begun = firstMoneyDay(desk);
  const months = monthsIn(year)
    .filter(({ first, last }) => first <= today && (begun === undefined || last >= begun))
    .map((period) => ({ period, totals: moneyTotals(booksWithin(books, period).movements) }));
  return { year: reportOf(desk, year, books), months };
}

/** The day on which the first money moved; undefined: none did. */
export function firstMoneyDay(desk: Desk): LocalDay | undefined {
  const at = desk.store.saleMoney.firstAt();
  return at === undefined ? undefined : dayOf(at, businessOf(desk).zone);
}

/** The month-day on which the business's tax year begins. */
export const taxYearBegins = (desk: Desk): MonthDay => taxYearStart(businessOf(desk).region);

function reportOf(desk: Desk, period: Period, { movements, sold, guessed }: Books): MoneyReport {
  const { zone } = businessOf(desk);
  const today = todayOf(desk);
  const isSoFar = isWithin(today, period) && today !== period.last;
  // Of a month that has not begun there is nothing, and it has no days to go by.
  const passed: Period = { first: period.first, last: isSoFar ? today : period.last };
  const totals = moneyTotals(movements);
  const tubs = desk.store.tubs.tubs();
  const litresOf = (own: readonly Tub[]): number => litresInUse(own, passed, zone);
  const lines = moneyByLine(movements, sold).map((line) => ({
    ...line,
    perTenMinor: perTen(line.netMinor, line.sold),
    perLitreMinor: perEach(line.netMinor, litresOf(tubs.filter(({ lineId }) => lineId === line.lineId))),
  }));
  const soldInAll = lines.reduce((sum, line) => sum + line.sold, 0);
  const choreHours = choreMinutes(allChores(desk), workIn(desk, tubs, passed)) / 60;
  return {
    period,
    isSoFar,
    totals,
    lines,
    rest: moneyOfRest(movements),
    sold: soldInAll,
    perTenMinor: perTen(totals.netMinor, soldInAll),
    perLitreMinor: perEach(totals.netMinor, litresOf(tubs)),
    perHourMinor: perEach(totals.netMinor, choreHours),
    choreHours,
    guessed: guessed.size,
    payback: paybackAt(desk, tubs, passed.last),
  };
}

/** What was done in some days: ticks, and what ticks chores of itself. */
function workIn(desk: Desk, tubs: readonly Tub[], period: Period): WorkDone {
  const { from, to } = spanOf(desk, period);
  const dayAt = daysWithin(period, businessOf(desk).zone);
  const racks = new Map(tubs.map(({ id, rack }) => [id, rack]));
  const { choreWork } = desk.store;
  const acts = (['change', 'topup', 'reading'] as const).flatMap((act) =>
    choreWork
      .acts(act, from, to)
      .map(({ tubId, at }) => ({ act, tubId, rack: racks.get(tubId) ?? '', day: dayAt(at) })),
  );
  return { acts, ticks: choreWork.ticks(from, to).map((tick) => ({ ...tick, day: dayAt(tick.at) })) };
}

/** Days that a tub's payback is reckoned from: a whole year, so that the closed season is in it. */
const paybackDays = 365;

/** The payback of one more tub, of the line that gains most by it, from the year up to a day. */
function paybackAt(desk: Desk, tubs: readonly Tub[], last: LocalDay): Payback | null {
  const { zone } = businessOf(desk);
  const begun = tubs.map(({ addedAt }) => dayOf(addedAt, zone)).sort()[0] ?? last;
  const first = [begun, addDays(last, 1 - paybackDays)].sort().at(-1) ?? last;
  const year: Period = { first, last };
  if (first > last || daysIn(year) < leastDays) return null;
  const { movements, sold } = booksOf(desk, year);
  const days = new Map<number, number>();
  for (const tub of tubs) days.set(tub.lineId, (days.get(tub.lineId) ?? 0) + daysInUse(tub, year, zone));
  const [best] = tubEarnings(movements, sold, days).sort((a, b) => b.netPerMonthMinor - a.netPerMonthMinor);
  if (best === undefined) return null;
  const costMinor = newTubCostMinor(desk.store.costs.withTub(spanOf(desk, year).to));
  const { name: line, netPerMonthMinor } = best;
  return {
    line,
    netPerMonthMinor,
    costMinor,
    months: costMinor === null ? null : paybackMonths(costMinor, netPerMonthMinor),
  };
}
