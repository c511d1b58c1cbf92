export * from './atHand.ts';
export { colonySlices } from './colony/colony.ts';
export * from './colony/forecast.ts';
export { businessOf, type Desk, todayOf } from './desk.ts';
export * from './dispatch/day.ts';
export {
  dispatchDaysAhead,
  type JudgedDay,
  judgeDay,
  judgeSale,
  nextDayFor,
} from './dispatch/judge.ts';
export * from './dispatch/packPlan.ts';
export { type Destination, homeArea, regionOf } from './dispatch/places.ts';
export * from './dispatch/seasons.ts';
export * from './dispatch/sent.ts';
export * from './dispatch/weather.ts';
export * from './drafts.ts';
export { findLine, findTub, linesOf, tubById, tubsInUse } from './find.ts';
export * from './ledger.ts';
export * from './money/costs.ts';
export * from './money/exports.ts';
export * from './money/report.ts';
export * from './outlets.ts';
export * from './posts/evening.ts';
export * from './posts/kept.ts';
export * from './posts/missed.ts';
export * from './posts/morning.ts';
export * from './posts/season.ts';
export * from './posts/tick.ts';
export * from './posts/weekly.ts';
export * from './repeat.ts';
export * from './rota/chores.ts';
export * from './rota/cover.ts';
export * from './rota/done.ts';
export * from './rota/rota.ts';
export * from './rota/shift.ts';
export { dueTargets } from './rota/targets.ts';
export { addSale, type SaleBooked, type SaleInput } from './sales/add.ts';
export * from './sales/arrivals.ts';
export * from './sales/cancel.ts';
export * from './sales/claimRecord.ts';
export * from './sales/claims.ts';
export * from './sales/edit.ts';
export { findSale, parcelsOf, resendOf, saleById, stateOf } from './sales/find.ts';
export * from './sales/forget.ts';
export * from './sales/goods.ts';
export type { WantedItem } from './sales/items.ts';
export * from './sales/list.ts';
export * from './sales/pay.ts';
export * from './sales/waiting.ts';
export * from './setup.ts';
export * from './tubs/animals.ts';
export * from './tubs/passes.ts';
export * from './tubs/stock.ts';
export * from './tubs/stockAhead.ts';
export * from './tubs/stockPast.ts';
export * from './tubs/trouble.ts';
export * from './tubs/tubState.ts';
export * from './tubs/tubs.ts';
export * from './undo.ts';
export * from './water/changePlan.ts';
export * from './water/changes.ts';
export * from './water/mend.ts';
export * from './water/mix.ts';
export * from './water/past.ts';
export * from './water/prepare.ts';
export * from './water/readings.ts';
export * from './water/verdict.ts';
