import type { ClosedWindow } from '../business.ts';
import type { Instant, LocalDay, Weekday } from '../day.ts';
import type { Absence } from '../rota/absence.ts';

/** What a dispatch day is judged to be. No beats ask, ask beats may go. */
export const dispatchVerdicts = ['no', 'ask', 'may go'] as const;
export type DispatchVerdict = (typeof dispatchVerdicts)[number];

/** A place and a day of which no forecast is known; place null: wherever the parcel goes. */
export interface ForecastGap {
  readonly area: string | null;
  readonly day: LocalDay;
}

/** Why a dispatch day is judged as it is, with the figures. */
export type DispatchReason =
  | { readonly kind: 'past'; readonly day: LocalDay; readonly today: LocalDay }
  /** `reopensOn`: the first day that no window covers; null: none. */
  | { readonly kind: 'closed-window'; readonly window: ClosedWindow; readonly reopensOn: LocalDay | null }
  /** On that day, or while a claim may come. */
  | { readonly kind: 'nobody-there'; readonly absence: Absence }
  | { readonly kind: 'not-a-dispatch-day'; readonly weekday: Weekday; readonly dispatchDays: readonly Weekday[] }
  | {
      readonly kind: 'holiday';
      readonly day: LocalDay;
      readonly name: string;
      readonly whose: 'sender' | 'buyer' | 'both';
      /** On the day of dispatch itself, or on a day on which the parcel is on its way or may be late. */
      readonly on: 'dispatch' | 'way';
    }
  | { readonly kind: 'weekend-in-transit'; readonly day: LocalDay; readonly weekday: Weekday }
  | {
      readonly kind: 'too-cold';
      readonly day: LocalDay;
      readonly area: string;
      readonly lowC: number;
      readonly minTempC: number;
      readonly at: Instant;
    }
  | {
      readonly kind: 'too-hot';
      readonly day: LocalDay;
      readonly area: string;
      readonly highC: number;
      readonly maxTempC: number;
      readonly at: Instant;
    }
  | { readonly kind: 'forecast-missing'; readonly day: LocalDay; readonly missing: readonly ForecastGap[] }
  /** Known in part only: the weather of one end says nothing of the other. */
  | { readonly kind: 'forecast-gaps'; readonly day: LocalDay; readonly missing: readonly ForecastGap[] }
  | {
      readonly kind: 'forecast-old';
      readonly day: LocalDay;
      readonly area: string;
      readonly at: Instant;
      readonly ageHours: number;
    }
  /** While a claim may come; another partner is there. */
  | { readonly kind: 'partner-away'; readonly name: string; readonly absence: Absence }
  | { readonly kind: 'abroad' }
  | { readonly kind: 'island' }
  /** A note, not a doubt: the day is too far off for a forecast to mean much. */
  | { readonly kind: 'forecast-not-looked-at'; readonly day: LocalDay };

/** The verdict that each reason leads to by itself, in the order in which reasons are told. */
const leadsTo: Readonly<Record<DispatchReason['kind'], DispatchVerdict>> = {
  past: 'no',
  'closed-window': 'no',
  'nobody-there': 'no',
  'not-a-dispatch-day': 'no',
  holiday: 'no',
  'weekend-in-transit': 'no',
  'too-cold': 'no',
  'too-hot': 'no',
  'forecast-missing': 'ask',
  'forecast-gaps': 'ask',
  'forecast-old': 'ask',
  'partner-away': 'ask',
  abroad: 'ask',
  island: 'ask',
  'forecast-not-looked-at': 'may go',
};

/** The places and days whose forecast somebody should look at, those that nobody has named left out. */
export const wantedForecasts = (reasons: readonly DispatchReason[]): { area: string; day: LocalDay }[] =>
  reasons.flatMap((reason) => {
    if (reason.kind === 'forecast-old') return [{ area: reason.area, day: reason.day }];
    if (reason.kind !== 'forecast-missing' && reason.kind !== 'forecast-gaps') return [];
    return reason.missing.flatMap(({ area, day }) => (area === null ? [] : [{ area, day }]));
  });

const order = Object.keys(leadsTo);

/** The verdict that one reason leads to by itself. */
export const verdictOfReason = (reason: DispatchReason): DispatchVerdict => leadsTo[reason.kind];

/** The reasons with the deciding one first. */
export const reasonsInOrder = (reasons: readonly DispatchReason[]): DispatchReason[] =>
  [...reasons].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));

/** The verdict that the reasons lead to together. */
export const verdictOfReasons = (reasons: readonly DispatchReason[]): DispatchVerdict => {
  const found = reasons.map(verdictOfReason);
  return dispatchVerdicts.find((verdict) => found.includes(verdict)) ?? 'may go';
};
