import type { DispatchJudgement, LineStock, LocalDay } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, todayOf } from '../desk.ts';
import { dispatchDaysAhead } from '../dispatch/judge.ts';
import { openClaims, type SoldBetween, soldInWeek } from '../sales/list.ts';
import { type WaitingList, waitingLists } from '../sales/waiting.ts';
import { stock } from '../tubs/stock.ts';
import { type StockWeeks, stockWeeks } from '../tubs/stockPast.ts';
import { type TubState, tubsToWatch } from '../tubs/tubState.ts';
import { type Missed, missedPosts } from './missed.ts';

/** What the week's post says. */
export interface WeeklyPost {
  readonly day: LocalDay;
  readonly stocks: readonly LineStock[];
  /** Each line's stock over the last twelve weeks. */
  readonly past: readonly StockWeeks[];
  readonly sold: SoldBetween;
  readonly claims: readonly BookedSale[];
  readonly watch: readonly TubState[];
  /** Days of the coming week on which parcels may leave. */
  readonly dispatchDays: readonly DispatchJudgement[];
  /** Lines whose next in the waiting list could be served now. */
  readonly waiting: readonly WaitingList[];
  readonly missed: Missed | null;
}

/** Today and the seven days after it. */
const daysAhead = 8;

export function weeklyPost(desk: Desk): WeeklyPost {
  const day = todayOf(desk);
  const stocks = stock(desk);
  const lists = waitingLists(desk);
  return {
    day,
    stocks: stocks.ok ? stocks.value : [],
    past: stockWeeks(desk),
    sold: soldInWeek(desk),
    claims: openClaims(desk),
    watch: tubsToWatch(desk),
    dispatchDays: dispatchDaysAhead(desk, daysAhead).filter((judged) => judged.day > day),
    waiting: lists.ok ? lists.value.filter(({ offers }) => (offers[0]?.offer ?? 0) > 0) : [],
    missed: missedPosts(desk, 'weekly', day),
  };
}
