import { fail, type Instant, minuteMs, ok, plusMs, type Refusal, type Result, type Tub } from '../domain/index.ts';
import type { Desk } from './desk.ts';

/** Clocks of two machines may differ by this much. */
const graceMs = 5 * minuteMs;

/**
 * The moment of an act: now where none is given. It may not be in the future. It may be before the tub was added to the books:
 * people enter old notes, but not before the year 2000.
 */
export function whenOf(desk: Desk, at: Instant | undefined, tub?: Tub): Result<Instant, Refusal> {
  const now = desk.now();
  if (at === undefined) return ok(now);
  if (at > plusMs(now, graceMs)) return fail({ kind: 'in-the-future', at });
  if (at < '2000')
    return fail({ kind: 'before-the-tub', tub: tub?.name ?? '', at, since: '2000-01-01T00:00:00.000Z' as Instant });
  return ok(at);
}
