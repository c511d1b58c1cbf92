import { z } from 'zod';
import { exportParts, exportTables } from '../src/desk/index.ts';
import { dayOf, type LocalDay, ok, parseDay, type Refusal, type Result } from '../src/domain/index.ts';
import { exportCard } from '../src/reply/index.ts';
import { type Command, type Ctx, leaf } from './command.ts';
import { momentOf, optionalText } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const everything = 'all';

/** The chat takes no larger file of a bot; some of the room is left for what goes along. */
const mostBytes = 8_000_000;

const tables = leaf({
  path: 'export',
  description: 'The books as CSV files, for you alone',
  ownerOnly: true,
  slow: 'asker',
  options: [
    { name: 'what', description: 'Everything if not said', type: 'text', choices: [everything, ...exportParts] },
    { name: 'from', description: 'First day; of tax-years the day on which they begin', type: 'text' },
    { name: 'to', description: 'Last day; today if not said', type: 'text' },
  ],
  input: z.object({
    what: z.enum([everything, ...exportParts]).nullish(),
    from: optionalText,
    to: optionalText,
  }),
  run: ({ what, from: typedFrom, to: typedTo }, ctx) => {
    const from = dayIn(ctx, typedFrom);
    if (!from.ok) return refused(ctx, from.fault);
    const to = dayIn(ctx, typedTo);
    if (!to.ok) return refused(ctx, to.fault);
    const part = what === everything || what === null ? undefined : what;
    const exported = exportTables(ctx.desk, { what: part, from: from.value, to: to.value });
    if (!exported.ok) return refused(ctx, exported.fault);
    const card = exportCard(voiceOf(ctx), exported.value);
    const large = (card.files ?? []).findIndex(({ text }) => Buffer.byteLength(text) > mostBytes);
    if (large >= 0) return refused(ctx, tooLarge(card.files?.[large]));
    return { card, private: true };
  },
});

export const exportCommand: Command = { name: 'export', description: tables.description, leaves: [tables] };

const tooLarge = (file: { readonly name: string; readonly text: string } | undefined): Refusal => ({
  kind: 'export-too-large',
  table: file?.name ?? '',
  megabytes: Math.ceil(Buffer.byteLength(file?.text ?? '') / 1_000_000),
});

/** A day in the past that words name, or a date of any time; undefined where nothing was typed. */
function dayIn(ctx: Ctx, typed: string | undefined): Result<LocalDay | undefined, Refusal> {
  const date = typed === undefined ? undefined : parseDay(typed.trim());
  if (date !== undefined) return ok(date);
  const moment = momentOf(ctx, typed);
  if (!moment.ok || moment.value === undefined) return moment.ok ? ok(undefined) : moment;
  return ok(dayOf(moment.value, voiceOf(ctx).zone));
}
