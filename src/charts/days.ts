import { addDays, day, dayOf, daysBetween, type Instant, type LocalDay, timeOf } from '../domain/index.ts';

const epoch = day('1970-01-01');
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** Days since 1970 by the wall clock of `zone`, with the part of the day; a calendar day counts from its midnight. */
export function dayNumber(at: LocalDay | Instant, zone: string): number {
  if (!isInstant(at)) return daysBetween(epoch, at);
  const [hours = 0, minutes = 0] = timeOf(at, zone).split(':').map(Number);
  return daysBetween(epoch, dayOf(at, zone)) + (hours * 60 + minutes) / 1440;
}

const isInstant = (at: LocalDay | Instant): at is Instant => at.includes('T');

/** "12 Oct". */
export function dateLabel(number: number): string {
  const [, month = 1, date = 1] = addDays(epoch, Math.floor(number)).split('-').map(Number);
  return `${date} ${months[month - 1]}`;
}

/** "Oct 2026". */
function monthLabel(number: number): string {
  const [year, month = 1] = addDays(epoch, Math.floor(number)).split('-').map(Number);
  return `${months[month - 1]} ${year}`;
}

const stepsDays = [1, 2, 3, 4, 7, 14, 21, 28, 42, 56, 91, 182, 273, 364] as const;

/** From about a year on a date without its year could be either. */
const yearFromDays = 330;

/** The days to name under the axis, at most five, the last one among them, and how they read. */
export function dayTicks(from: number, to: number): { readonly at: number[]; readonly label: (at: number) => string } {
  const last = Math.floor(to);
  const span = last - from;
  const isLong = span > yearFromDays;
  const most = isLong ? 3 : 4;
  const step = stepsDays.find((days) => span / days <= most) ?? Math.ceil(span / most);
  const count = Math.floor(Math.max(0, span) / step);
  return {
    at: Array.from({ length: count + 1 }, (_, index) => last - (count - index) * step),
    label: isLong ? monthLabel : dateLabel,
  };
}
