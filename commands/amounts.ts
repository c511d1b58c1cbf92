import { businessOf } from '../src/desk/index.ts';
import { amount, ok, type Refusal, type Result } from '../src/domain/index.ts';
import { minorDigits } from '../src/reply/index.ts';
import type { Ctx } from './command.ts';

/** A typed amount of money in minor units of the business's currency; undefined where none was typed. */
export function minorOf(
  ctx: Ctx,
  name: 'price' | 'postage' | 'amount',
  typed: number | undefined,
): Result<number | undefined, Refusal> {
  if (typed === undefined) return ok(undefined);
  const checked = amount(name, typed);
  if (!checked.ok) return checked;
  return ok(Math.round(typed * 10 ** minorDigits(businessOf(ctx.desk).currency)));
}
