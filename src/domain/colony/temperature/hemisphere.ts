import type { Hemisphere } from './yearPrior.ts';

/**
 * The hemisphere that a time zone's summer time tells: clocks are ahead in June in the north and in January in the south. Null where the zone keeps
 * one time all year.
 */
export function hemisphereOf(zone: string): Hemisphere | null {
  const january = offsetMinutes(zone, new Date('2026-01-15T12:00:00Z'));
  const june = offsetMinutes(zone, new Date('2026-06-15T12:00:00Z'));
  if (january === june) return null;
  return june > january ? 'north' : 'south';
}

function offsetMinutes(zone: string, at: Date): number {
  const wall = new Intl.DateTimeFormat('en-CA', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
  })
    .formatToParts(at)
    .reduce((parts, { type, value }) => parts.set(type, value), new Map<string, string>());
  const text = `${wall.get('year')}-${wall.get('month')}-${wall.get('day')}T${wall.get('hour')}:${wall.get('minute')}:00Z`;
  return (Date.parse(text) - at.getTime()) / 60_000;
}
