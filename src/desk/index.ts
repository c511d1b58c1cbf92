export * from './animals.ts';
export * from './arrivals.ts';
export * from './atHand.ts';
export * from './changes.ts';
export * from './chores.ts';
export * from './claims.ts';
export { businessOf, type Desk, todayOf } from './desk.ts';
export * from './dispatchDay.ts';
export {
  dispatchDaysAhead,
  type JudgedDay,
  judgeDay,
  judgeSale,
  nextDayFor,
} from './dispatchJudge.ts';
export { type Destination, homeArea, regionOf } from './dispatchPlaces.ts';
export * from './dispatchSent.ts';
export * from './dispatchWeather.ts';
export * from './drafts.ts';
export { findLine, findTub, linesOf, tubById, tubsInUse } from './find.ts';
export * from './goods.ts';
export * from './ledger.ts';
export * from './mix.ts';
export * from './outlets.ts';
export * from './posts.ts';
export * from './postsEvening.ts';
export * from './postsMorning.ts';
export * from './postsSeason.ts';
export * from './postsTick.ts';
export * from './postsWeekly.ts';
export * from './repeat.ts';
export * from './rota.ts';
export * from './rotaDone.ts';
export * from './rotaShift.ts';
export { addSale, type SaleBooked, type SaleInput } from './salesAdd.ts';
export * from './salesCancel.ts';
export * from './salesEdit.ts';
export { findSale, parcelsOf, resendOf, saleById, stateOf } from './salesFind.ts';
export type { WantedItem } from './salesItems.ts';
export * from './salesList.ts';
export * from './salesPay.ts';
export * from './seasons.ts';
export * from './setup.ts';
export * from './stock.ts';
export * from './stockPast.ts';
export * from './tubState.ts';
export * from './tubs.ts';
export * from './undo.ts';
export * from './water.ts';
