import { businessOf, todayOf } from '../src/desk/index.ts';
import { type LocalDay, ok, type Refusal, type Result, type WallTime } from '../src/domain/index.ts';
import { parseDayWords, parseTimeWords } from '../src/words/index.ts';
import type { Ctx } from './command.ts';

/** A typed day; "none" clears (null); undefined where nothing was typed. */
export function dayOrNull(ctx: Ctx, typed: string | undefined): Result<LocalDay | null | undefined, Refusal> {
  if (typed === undefined) return ok(undefined);
  if (/^\s*none\s*$/i.test(typed)) return ok(null);
  return parseDayWords(typed, { today: todayOf(ctx.desk), zone: businessOf(ctx.desk).zone });
}

/** A typed time of day; undefined where nothing was typed. */
export const timeOrNothing = (typed: string | undefined): Result<WallTime | undefined, Refusal> =>
  typed === undefined ? ok(undefined) : parseTimeWords(typed);
