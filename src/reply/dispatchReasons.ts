import {
  type Absence,
  type DispatchJudgement,
  type DispatchReason,
  type ForecastGap,
  type KnownAir,
  type LocalDay,
  verdictOfReason,
  type Weekday,
  wantedForecasts,
} from '../domain/index.ts';
import {
  dateWords,
  dayWords,
  listWords,
  momentWords,
  monthDayWords,
  sinceWords,
  someWords,
  tempWords,
  type Voice,
} from './voice.ts';

/** A dispatch day judged, and the next one that is good; null: none within a year. */
export interface Judged extends DispatchJudgement {
  readonly good: boolean;
  readonly next: LocalDay | null;
}

const weekdayNames: Record<Weekday, string> = {
  1: 'Monday',
  2: 'Tuesday',
  3: 'Wednesday',
  4: 'Thursday',
  5: 'Friday',
  6: 'Saturday',
  7: 'Sunday',
};

/** "Mon, Tue and Wed". */
export const weekdayWords = (days: readonly Weekday[]): string =>
  listWords([...days].sort((a, b) => a - b).map((day) => weekdayNames[day].slice(0, 3)));

/** The verdict on a day as it stands in a first line: "may go Mon 15 Mar", "ask, Mon 15 Mar", "no, not on Wed 13 Jan". */
export function verdictWords(voice: Voice, { verdict, day }: Pick<Judged, 'verdict' | 'day'>): string {
  const date = dateWords(voice, day);
  if (verdict === 'may go') return `may go ${date}`;
  return verdict === 'ask' ? `ask, ${date}` : `no, not on ${date}`;
}

/** Why a day is judged as it is, a line each, the deciding one first; days without delivery share one line. */
export function reasonLines(voice: Voice, all: readonly DispatchReason[], most = 2): string[] {
  // Where something speaks against the day, what would only be asked about is beside the point.
  const against = all.filter((reason) => verdictOfReason(reason) === 'no');
  const reasons = against.length > 0 ? against : all;
  const weekend = reasons.flatMap((reason) =>
    reason.kind === 'weekend-in-transit' ? [dateWords(voice, reason.day)] : [],
  );
  const lines = reasons.flatMap((reason) =>
    reason.kind === 'weekend-in-transit'
      ? [`On the way or late it would lie over ${listWords(weekend)}`]
      : [reasonLine(voice, reason)],
  );
  return [...new Set(lines)].slice(0, most);
}

function reasonLine(voice: Voice, reason: Exclude<DispatchReason, { kind: 'weekend-in-transit' }>): string {
  switch (reason.kind) {
    case 'past':
      return `That day is past; today is ${dateWords(voice, reason.today)}`;
    case 'closed-window': {
      const { name, from, to } = reason.window;
      const opens = reason.reopensOn === null ? '' : `, open again ${dateWords(voice, reason.reopensOn)}`;
      return `Closed window ${name}: ${monthDayWords(from)} to ${monthDayWords(to)}${opens}`;
    }
    case 'not-a-dispatch-day':
      return `${weekdayNames[reason.weekday]} is not a dispatch day; parcels leave ${weekdayWords(reason.dispatchDays)}`;
    case 'holiday': {
      const whose = reason.whose === 'buyer' ? " in the buyer's region" : '';
      const date = dateWords(voice, reason.day);
      return reason.on === 'dispatch'
        ? `${date} is ${reason.name}: nothing is collected`
        : `On the way or late it would lie over ${reason.name}, ${date}${whose}`;
    }
    case 'too-cold':
      return `Low ${tempWords(voice, reason.lowC)} ${placeAndDay(voice, reason)}, bound ${tempWords(voice, reason.minTempC)}`;
    case 'too-hot':
      return `High ${tempWords(voice, reason.highC)} ${placeAndDay(voice, reason)}, bound ${tempWords(voice, reason.maxTempC)}`;
    case 'nobody-there':
      return `All away ${absenceWords(voice, reason.absence)}: nobody packs or answers a claim`;
    case 'partner-away':
      return `${reason.name} is away ${absenceWords(voice, reason.absence)}, when a claim may come`;
    case 'forecast-missing':
      return 'It leaves within two days and nobody has looked at the forecast';
    case 'forecast-gaps':
      return gapsLine(voice, reason.missing);
    case 'forecast-old':
      return `The forecast for ${reason.area} is from ${momentWords(voice, reason.at)}: look again`;
    case 'abroad':
      return "It crosses a border: the carrier's and the country's rules are yours to check";
    case 'island':
      return 'It goes over water: ask the carrier how long it takes';
    case 'forecast-not-looked-at':
      return 'Forecast not looked at';
  }
}

/** "No forecast yet for home today, Leeds on Tue 16 Mar"; without a place for the far end: where it goes is asked first. */
function gapsLine(voice: Voice, missing: readonly ForecastGap[]): string {
  const named = missing.flatMap(({ area, day }) => (area === null ? [] : [gapWords(voice, { area, day })]));
  if (named.length === 0) return 'Only the weather here was looked at: say where it goes, with area';
  const where = named.length < missing.length ? '; nor is it said where it goes' : '';
  return `No forecast yet for ${someWords(named, 3)}${where}`;
}

/** "Leeds tomorrow", "Leeds on Tue 16 Mar". */
export function gapWords(voice: Voice, { area, day }: { readonly area: string; readonly day: LocalDay }): string {
  const words = dayWords(voice, day);
  return words === dateWords(voice, day) ? `${area} on ${words}` : `${area} ${words}`;
}

/** The air on the way where no figure of it was said already, with the age of the oldest forecast. */
export function airLine(voice: Voice, { air, reasons }: Pick<DispatchJudgement, 'air' | 'reasons'>): string[] {
  const isSaid = reasons.some(({ kind }) => kind === 'too-cold' || kind === 'too-hot' || kind === 'past');
  return air === null || isSaid ? [] : [airWords(voice, air)];
}

/** "Low 6 °C, high 17 °C on the way, as of today 17:05". */
export const airWords = (voice: Voice, { lowC, highC, at }: KnownAir): string =>
  `Low ${tempWords(voice, lowC)}, high ${tempWords(voice, highC)} on the way, as of ${sinceWords(voice, at)}`;

/** "Tue 3 Aug to Thu 12 Aug", "from Tue 3 Aug on", "until Thu 12 Aug". */
export function absenceWords(voice: Voice, { from, to }: Absence): string {
  if (from === null) return to === null ? 'for good' : `until ${dateWords(voice, to)}`;
  return to === null ? `from ${dateWords(voice, from)} on` : `${dateWords(voice, from)} to ${dateWords(voice, to)}`;
}

const placeAndDay = (voice: Voice, { area, day }: { readonly area: string; readonly day: LocalDay }): string =>
  `at ${area} on ${dateWords(voice, day)}`;

/** "Next good day: Mon 15 Mar", or nothing where the day is good. */
export function nextGoodLine(voice: Voice, judged: Judged): string[] {
  if (judged.good) return [];
  return [judged.next === null ? 'No good day within a year' : `Next good day: ${dateWords(voice, judged.next)}`];
}

/** Whether somebody should look at the forecast before this day, which is good but for that. */
export const wantsForecast = ({ good, reasons }: Pick<Judged, 'good' | 'reasons'>): boolean =>
  good && wantedForecasts(reasons).length > 0;
