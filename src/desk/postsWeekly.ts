import type { DispatchJudgement, LineStock, LocalDay } from '../domain/index.ts';
import type { BookedSale } from '../store/sales.ts';
import { type Desk, todayOf } from './desk.ts';
import { dispatchDaysAhead } from './dispatchJudge.ts';
import { type Missed, missedPosts } from './posts.ts';
import { openClaims, type SoldBetween, soldInWeek } from './salesList.ts';
import { stock } from './stock.ts';
import { type StockWeeks, stockWeeks } from './stockPast.ts';
import { type TubState, tubsToWatch } from './tubState.ts';

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
  readonly missed: Missed | null;
}

/** Today and the seven days after it. */
const daysAhead = 8;

export function weeklyPost(desk: Desk): WeeklyPost {
  const day = todayOf(desk);
  const stocks = stock(desk);
  return {
    day,
    stocks: stocks.ok ? stocks.value : [],
    past: stockWeeks(desk),
    sold: soldInWeek(desk),
    claims: openClaims(desk),
    watch: tubsToWatch(desk),
    dispatchDays: dispatchDaysAhead(desk, daysAhead).filter((judged) => judged.day > day),
    missed: missedPosts(desk),
  };
}
