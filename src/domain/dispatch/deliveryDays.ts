import { addDays, type LocalDay, type Weekday, weekdayOf } from '../day.ts';

/** The public holidays, day and name, where a parcel leaves and where it goes. */
export interface HolidaysOnTheWay {
  readonly sender: ReadonlyMap<LocalDay, string>;
  readonly buyer: ReadonlyMap<LocalDay, string>;
}

/** Why parcels are not delivered on a day. */
export type NoDelivery =
  | { readonly kind: 'weekend'; readonly weekday: Weekday }
  | { readonly kind: 'holiday'; readonly name: string; readonly whose: 'sender' | 'buyer' | 'both' };

/** Why nothing is delivered on a day, or null: delivery days are Monday to Friday without the holidays of both ends. */
export function noDeliveryOn(day: LocalDay, holidays: HolidaysOnTheWay): NoDelivery | null {
  const weekday = weekdayOf(day);
  if (weekday >= 6) return { kind: 'weekend', weekday };
  const [sender, buyer] = [holidays.sender.get(day), holidays.buyer.get(day)];
  if (sender !== undefined) return { kind: 'holiday', name: sender, whose: buyer === undefined ? 'sender' : 'both' };
  return buyer === undefined ? null : { kind: 'holiday', name: buyer, whose: 'buyer' };
}

/** The days after the dispatch day on which a parcel is on its way or may be late: transit plus slack, in calendar days. */
export const daysOnTheWay = (dispatchOn: LocalDay, transitDays: number, slackDays: number): LocalDay[] =>
  Array.from({ length: transitDays + slackDays }, (_, index) => addDays(dispatchOn, index + 1));
