/** What happened in a tub, in days since any fixed moment; fractions are of the net volume, 0 to 1. */
export type TubEvent =
  | {
      readonly of: 'reading';
      readonly day: number;
      readonly nitrateMgL: number;
      /** It was asked for, as the one before did not fit: it counts though it saw the same within the hour. */
      readonly isAsked?: true;
    }
  /** Water taken out and replaced with source water. */
  | { readonly of: 'change'; readonly day: number; readonly fraction: number }
  /** Evaporation replaced with water that holds `mgL` of nitrate. */
  | { readonly of: 'topup'; readonly day: number; readonly fraction: number; readonly mgL: number };

/** Readings older than this, in days, say little of today's rise: feeding, plants and stock have changed (assumption). */
export const windowDays = 120;

/** Two looks at the same value within this time are one look, logged twice; in days. */
const sameLookDays = 1 / 24;

const isSound = (event: TubEvent): boolean => {
  if (!Number.isFinite(event.day)) return false;
  if (event.of === 'reading') return event.nitrateMgL >= 0 && Number.isFinite(event.nitrateMgL);
  return event.fraction > 0 && event.fraction <= 1 && (event.of === 'change' || event.mgL >= 0);
};

/** Whether a reading shows what the one before it showed within the hour. */
export const isSameLook = (before: TubEvent | undefined, after: TubEvent): boolean =>
  before?.of === 'reading' &&
  after.of === 'reading' &&
  before.nitrateMgL === after.nitrateMgL &&
  after.day - before.day <= sameLookDays;

/**
 * The events of the window in order of time. At the same moment a reading comes before a change, as people test first. A reading logged
 * twice within the hour counts once; events that cannot be (a fraction outside 0 to 1, a negative reading) are left out.
 *
 * @param events in any order
 * @param nowDay end of the window; later events are left out
 */
export function eventsInWindow(events: readonly TubEvent[], nowDay: number): TubEvent[] {
  const place = ({ of }: TubEvent): number => (of === 'reading' ? 0 : 1);
  const sorted = events
    .filter((event) => isSound(event) && event.day >= nowDay - windowDays && event.day <= nowDay)
    .sort((one, other) => one.day - other.day || place(one) - place(other));
  let last: TubEvent | undefined;
  return sorted.filter((event) => {
    if (event.of !== 'reading') return true;
    const isTwice = event.isAsked !== true && isSameLook(last, event);
    last = event;
    return !isTwice;
  });
}

/** What happened up to a moment, its readings included; a change of the same moment comes after the reading. */
export const eventsUpTo = (events: readonly TubEvent[], day: number): TubEvent[] =>
  events.filter((event) => event.day < day || (event.of === 'reading' && event.day === day));
