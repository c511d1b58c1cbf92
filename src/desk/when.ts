import { day, dayOf, fail, type Instant, minuteMs, ok, plusMs, type Refusal, type Result } from '../domain/index.ts';
import { businessOf, type Desk } from './desk.ts';

/** Clocks of two machines may differ by this much. */
const graceMs = 5 * minuteMs;

/** People enter old notes, older than the tub's own entry too; what is older than this is a slip. */
export const entriesBegin = day('2000-01-01');

/** The moment of an act: now where none is given. It may be neither in the future nor before the year 2000. */
export function whenOf(desk: Desk, at: Instant | undefined): Result<Instant, Refusal> {
  const now = desk.now();
  if (at === undefined) return ok(now);
  if (at > plusMs(now, graceMs)) return fail({ kind: 'in-the-future', at });
  if (dayOf(at, businessOf(desk).zone) < entriesBegin) return fail({ kind: 'too-long-ago', at, since: entriesBegin });
  return ok(at);
}
