import { dayOf, type Instant, type LocalDay } from '../day.ts';

/** `dayOf` in a zone for many instants: each minute is looked up once. Zones change at whole minutes. */
export function localDays(zone: string): (at: Instant) => LocalDay {
  const known = new Map<string, LocalDay>();
  return (at) => {
    const minute = at.slice(0, 16);
    const day = known.get(minute) ?? dayOf(at, zone);
    known.set(minute, day);
    return day;
  };
}
