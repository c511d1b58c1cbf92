import { z } from 'zod';
import { fail, ok, type Refusal, type Result } from '../src/domain/index.ts';
import type { Attachment, Ctx, OptionSpec } from './command.ts';

export const photoOption: OptionSpec = {
  name: 'photo',
  description: 'Photo of the unopened bag beside the label',
  type: 'attachment',
};

/** An attached photo. */
export const photo = z
  .object({
    id: z.string(),
    name: z.string(),
    url: z.string(),
    sizeBytes: z.number(),
    contentType: z.string().nullable(),
  })
  .nullish();

/** Fetches an attached photo into the data folder; its file name, or undefined where none was attached. */
export async function keptPhoto(
  ctx: Ctx,
  attached: Attachment | null | undefined,
): Promise<Result<string | undefined, Refusal>> {
  if (attached === null || attached === undefined) return ok(undefined);
  const kept = await ctx.keepPhoto(attached);
  return kept.ok ? ok(kept.value) : fail({ kind: 'photo-not-kept', cause: kept.cause });
}
