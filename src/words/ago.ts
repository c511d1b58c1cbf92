import { minuteMs } from '../domain/index.ts';

const minutesPer: Readonly<Record<string, number>> = { h: 60, m: 1 };
const piece = /(\d+(?:[.,]\d+)?|half an?|an?|one|two|three) ?(hours?|hrs?|h|minutes?|mins?|m)\b(?: and)? ?/g;
const counts: Readonly<Record<string, number>> = {
  a: 1,
  an: 1,
  one: 1,
  two: 2,
  three: 3,
  'half a': 0.5,
  'half an': 0.5,
};

/** Milliseconds that "2 h ago", "an hour ago" or "1 h 20 min ago" lies back; undefined for anything else. */
export function readAgo(text: string): number | undefined {
  const found = /^(?:about |around )?(.+?) ?ago$/.exec(text);
  const amounts = found?.[1];
  if (amounts === undefined || amounts.replace(piece, '').trim() !== '') return undefined;
  let minutes = 0;
  for (const [, count = '', unit = ''] of amounts.matchAll(piece)) {
    minutes += (counts[count] ?? Number(count.replace(',', '.'))) * (minutesPer[unit.charAt(0)] ?? 0);
  }
  return Math.round(minutes * minuteMs);
}
