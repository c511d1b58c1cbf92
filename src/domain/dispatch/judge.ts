import type { ClosedWindow } from '../business.ts';
import { addDays, type Instant, type LocalDay, type Weekday, weekdayOf } from '../day.ts';
import type { Weather } from '../sales/sale.ts';
import { absenceReasons, type ClaimQuestion } from './absence.ts';
import { daysOnTheWay, type HolidaysOnTheWay, noDeliveryOn } from './deliveryDays.ts';
import { airOnTheWay, type Ends, forecastReasons, type KnownAir } from './forecast.ts';
import {
  type DispatchReason,
  type DispatchVerdict,
  reasonsInOrder,
  verdictOfReason,
  verdictOfReasons,
} from './reason.ts';
import { closedBy, reopensOn } from './windows.ts';

/** What a dispatch day is judged by. */
export interface DispatchQuestion extends ClaimQuestion {
  readonly today: LocalDay;
  readonly now: Instant;
  readonly windows: readonly ClosedWindow[];
  readonly dispatchDays: readonly Weekday[];
  readonly holidays: HolidaysOnTheWay;
  readonly ends: Ends;
  /** Known forecasts for places on the way of this parcel. */
  readonly weather: readonly Weather[];
  /** Bounds of the air on the way: night low and day high, °C. */
  readonly minTempC: number;
  readonly maxTempC: number;
  /** To another country. */
  readonly abroad: boolean;
  readonly island: boolean;
}

/** The verdict on a dispatch day. */
export interface DispatchJudgement {
  readonly day: LocalDay;
  readonly verdict: DispatchVerdict;
  /** The deciding reason first; empty where nothing speaks against the day. */
  readonly reasons: readonly DispatchReason[];
  /** The days on which the parcel may be delivered: on time, then late by up to the slack. */
  readonly deliveryDays: readonly LocalDay[];
  /** The air on the way as it is known; null: no forecast is. */
  readonly air: KnownAir | null;
}

/**
 * May a parcel leave on a day? No outside the season, on other weekdays, where it would lie over a day without delivery, in air too cold or
 * hot, or where nobody is there to answer a claim; ask where nobody can know. That transit and slack must all be delivery days, and that living
 * parcels cross borders and water only after asking: common practice, no source.
 */
export function judgeDispatch(question: DispatchQuestion): DispatchJudgement {
  const { day, transitDays, slackDays } = question;
  const onTheWay = daysOnTheWay(day, transitDays, slackDays);
  const way = { deliveredOn: addDays(day, transitDays), lastDay: onTheWay.at(-1) ?? day };
  const reasons = reasonsInOrder([
    ...dayReasons(question),
    ...absenceReasons(question),
    ...onTheWay.flatMap((on) => wayReason(on, question.holidays)),
    ...forecastReasons({ ...question, ...way }),
    ...(question.abroad ? [{ kind: 'abroad' as const }] : []),
    ...(question.island ? [{ kind: 'island' as const }] : []),
  ]);
  return {
    day,
    verdict: verdictOfReasons(reasons),
    reasons,
    deliveryDays: Array.from({ length: slackDays + 1 }, (_, late) => addDays(day, transitDays + late)),
    air: airOnTheWay({ ...question, ...way }),
  };
}

function dayReasons({ day, today, windows, dispatchDays, holidays }: DispatchQuestion): DispatchReason[] {
  const reasons: DispatchReason[] = [];
  if (day < today) reasons.push({ kind: 'past', day, today });
  const window = closedBy(windows, day);
  if (window !== null) reasons.push({ kind: 'closed-window', window, reopensOn: reopensOn(windows, day) });
  const weekday = weekdayOf(day);
  if (!dispatchDays.includes(weekday)) reasons.push({ kind: 'not-a-dispatch-day', weekday, dispatchDays });
  // A holiday at the buyer's end keeps nobody from handing a parcel in.
  const name = holidays.sender.get(day);
  if (name !== undefined) reasons.push({ kind: 'holiday', day, name, whose: 'sender', on: 'dispatch' });
  return reasons;
}

function wayReason(day: LocalDay, holidays: HolidaysOnTheWay): DispatchReason[] {
  const why = noDeliveryOn(day, holidays);
  if (why === null) return [];
  return why.kind === 'weekend'
    ? [{ kind: 'weekend-in-transit', day, weekday: why.weekday }]
    : [{ kind: 'holiday', day, name: why.name, whose: why.whose, on: 'way' }];
}

/**
 * Doubts that are no reason to take another day: they hold whenever it is sent, or end once somebody looks at the weather, or asks the
 * partner who is there.
 */
const notOfTheDay: readonly DispatchReason['kind'][] = [
  ...(['forecast-missing', 'forecast-gaps', 'forecast-old', 'partner-away'] as const),
  ...(['abroad', 'island'] as const),
];

/** Whether a day is good as days go: it may go, or is asked about only for what another day would not settle. */
export const isGoodDay = ({ reasons }: Pick<DispatchJudgement, 'reasons'>): boolean =>
  reasons.every((reason) => verdictOfReason(reason) === 'may go' || notOfTheDay.includes(reason.kind));

/** Days searched for the next good one. */
const daysSearched = 400;

/** The first good day after `from`, at most 400 days on, or null. */
export function nextGoodDay(
  from: LocalDay,
  judge: (day: LocalDay) => Pick<DispatchJudgement, 'reasons'>,
): LocalDay | null {
  for (let ahead = 1; ahead <= daysSearched; ahead++) {
    const day = addDays(from, ahead);
    if (isGoodDay(judge(day))) return day;
  }
  return null;
}
