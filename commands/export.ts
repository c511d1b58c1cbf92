import { z } from 'zod';
import { exportParts, exportTables } from '../src/desk/index.ts';
import { dayOf, type LocalDay, ok, parseDay, type Refusal, type Result } from '../src/domain/index.ts';
import { type ExportFiles, exportCard, exportFiles } from '../src/reply/index.ts';
import { type Command, type Ctx, leaf } from './command.ts';
import { momentOf, optionalText } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const everything = 'all';

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
  run: async ({ what, from: typedFrom, to: typedTo }, ctx) => {
    const from = dayIn(ctx, typedFrom);
    if (!from.ok) return refused(ctx, from.fault);
    const to = dayIn(ctx, typedTo);
    if (!to.ok) return refused(ctx, to.fault);
    const part = what === everything || what === null ? undefined : what;
    const days = { from: from.value, to: to.value };
    const reads = exportTables(ctx.desk, { what: part, ...days });
    if (!reads.ok) return refused(ctx, reads.fault);
    const voice = voiceOf(ctx);
    const tables: ExportFiles[] = [];
    for (const read of reads.value) {
      tables.push(exportFiles(voice, read()));
      await othersTurn();
    }
    return { card: exportCard(voice, tables, days), private: true };
  },
});

export const exportCommand: Command = { name: 'export', description: tables.description, leaves: [tables] };

/** Lets what came meanwhile be answered. */
const othersTurn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** A day in the past that words name, or a date of any time; undefined where nothing was typed. */
function dayIn(ctx: Ctx, typed: string | undefined): Result<LocalDay | undefined, Refusal> {
  const date = typed === undefined ? undefined : parseDay(typed.trim());
  if (date !== undefined) return ok(date);
  const moment = momentOf(ctx, typed);
  if (!moment.ok || moment.value === undefined) return moment.ok ? ok(undefined) : moment;
  return ok(dayOf(moment.value, voiceOf(ctx).zone));
}
