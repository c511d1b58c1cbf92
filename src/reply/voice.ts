import {
  type Business,
  dayOf,
  daysBetween,
  fahrenheitOf,
  type Instant,
  type LocalDay,
  timeOf,
  type Units,
} from '../domain/index.ts';

/** What wording depends on: where and when the reader is, and their units. */
export interface Voice {
  readonly zone: string;
  readonly now: Instant;
  readonly today: LocalDay;
  readonly currency: string;
  readonly units: Units;
}

export const voiceFor = (business: Business, now: Instant): Voice => ({
  zone: business.zone,
  now,
  today: dayOf(now, business.zone),
  currency: business.currency,
  units: business.units,
});

const weekdays = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** Within this many days a date without its year can't be taken for another. */
const yearUnsaidDays = 200;

/** "Tue 13 Apr", with the year when it is far off. */
export function dateWords(voice: Voice, day: LocalDay): string {
  const at = new Date(`${day}T00:00:00Z`);
  const weekday = weekdays[(at.getUTCDay() + 6) % 7];
  const year = Math.abs(daysBetween(voice.today, day)) <= yearUnsaidDays ? '' : ` ${day.slice(0, 4)}`;
  return `${weekday} ${at.getUTCDate()} ${months[at.getUTCMonth()]}${year}`;
}

/** "today", "tomorrow", "yesterday", else the date. */
export function dayWords(voice: Voice, day: LocalDay): string {
  const ahead = daysBetween(voice.today, day);
  if (ahead === 0) return 'today';
  if (ahead === 1) return 'tomorrow';
  return ahead === -1 ? 'yesterday' : dateWords(voice, day);
}

/** "yesterday 18:52", "Mon 12 Apr 19:10"; only the time when it is today. */
export function momentWords(voice: Voice, at: Instant): string {
  const day = dayOf(at, voice.zone);
  const time = timeOf(at, voice.zone);
  return day === voice.today ? time : `${dayWords(voice, day)} ${time}`;
}

/** "today 19:10", "yesterday 18:52": a moment inside a sentence. */
export const sinceWords = (voice: Voice, at: Instant): string => {
  const words = momentWords(voice, at);
  return dayOf(at, voice.zone) === voice.today ? `today ${words}` : words;
};

/** "1 Dec" of a recurring `MM-DD`. */
export function monthDayWords(monthDay: string): string {
  const [month, date] = monthDay.split('-').map(Number);
  return `${date} ${months[(month ?? 1) - 1]}`;
}

/** "today", "yesterday", "3 days ago". */
export function ageWords(voice: Voice, at: Instant): string {
  const days = daysBetween(dayOf(at, voice.zone), voice.today);
  if (days <= 0) return 'today';
  return days === 1 ? 'yesterday' : `${days} days ago`;
}

/** A number without needless zeros, at most `decimals` of them. */
export const figure = (value: number, decimals = 1): string =>
  Math.abs(value) >= 1e7 ? value.toExponential(1) : String(Number(value.toFixed(decimals)));

/** "7.5 L", in US units "7.5 L (2 gal)". */
export const litresWords = (voice: Voice, litres: number): string =>
  voice.units === 'us' ? `${figure(litres)} L (${figure(litres / 3.785411784)} gal)` : `${figure(litres)} L`;

/** "5 L (25 %)", in US units "5 L (1.3 gal, 25 %)". */
export const shareWords = (voice: Voice, litres: number, percent: number): string => {
  const words = litresWords(voice, litres);
  return words.endsWith(')') ? `${words.slice(0, -1)}, ${percent} %)` : `${words} (${percent} %)`;
};

/** "21.4 °C" or "70.5 °F". */
export const tempWords = (voice: Voice, tempC: number): string =>
  voice.units === 'us' ? `${figure(fahrenheitOf(tempC))} °F` : `${figure(tempC)} °C`;

/** How near the new water's temperature must be (common practice, no source): "2 °C", "4 °F". */
export const matchWords = (voice: Voice): string => (voice.units === 'us' ? '4 °F' : '2 °C');

/** "20 mg/L", whole from 10 up as no kit tells more. */
export const mgLWords = (mgL: number): string => `${figure(mgL, mgL >= 10 ? 0 : 1)} mg/L`;

/** "€34.00". */
export function moneyWords(voice: Voice, minor: number): string {
  const format = new Intl.NumberFormat('en-GB', { style: 'currency', currency: voice.currency });
  return format.format(minor / 10 ** minorDigits(voice.currency));
}

/** Decimals of a currency (ISO 4217): 2 for EUR, 0 for JPY. */
export const minorDigits = (currency: string): number =>
  new Intl.NumberFormat('en-GB', { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2;

/** "1 tub", "3 tubs". */
export const counted = (number: number, one: string, many = `${one}s`): string =>
  `${number} ${number === 1 ? one : many}`;

/** "A1, A2 and A4". */
export function listWords(names: readonly string[], last = 'and'): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} ${last} ${names.at(-1)}`;
}

/** "A1, A2, A4 and 9 more". */
export const someWords = (names: readonly string[], most: number): string =>
  names.length <= most ? listWords(names) : `${names.slice(0, most).join(', ')} and ${names.length - most} more`;

/** "logged by wren 18:52". */
export const loggedWords = (voice: Voice, by: string, at: Instant = voice.now): string =>
  `logged by ${by} ${momentWords(voice, at)}`;
