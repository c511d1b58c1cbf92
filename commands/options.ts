import { z } from 'zod';
import { businessOf } from '../src/desk/index.ts';
import { type Instant, ok, type Refusal, type Result } from '../src/domain/index.ts';
import { parseWhen } from '../src/words/index.ts';
import type { Ctx, OptionSpec } from './command.ts';

/** Zod pieces that the inputs share. Options that were left out are undefined; a patch may clear one with null. */
export const text = z.string();
export const optionalText = z
  .string()
  .nullish()
  .transform((value) => value ?? undefined);
export const number = z.number();
export const optionalNumber = z
  .number()
  .nullish()
  .transform((value) => value ?? undefined);
export const optionalFlag = z
  .boolean()
  .nullish()
  .transform((value) => value ?? undefined);

export const tubOption: OptionSpec = {
  name: 'tub',
  description: 'Which tub',
  type: 'text',
  required: true,
  complete: 'tub',
};
export const whenOption: OptionSpec = {
  name: 'when',
  description: 'When it was, if not now: "yesterday 18:00", "2 h ago"',
  type: 'text',
};

/** The moment that `when` names; undefined where nothing was typed. */
export function momentOf(ctx: Ctx, when: string | undefined): Result<Instant | undefined, Refusal> {
  if (when === undefined || when.trim() === '') return ok(undefined);
  const parsed = parseWhen(when, { now: ctx.now, zone: businessOf(ctx.desk).zone });
  return parsed.ok ? ok(parsed.value.at) : parsed;
}
