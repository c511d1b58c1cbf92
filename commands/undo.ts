import { z } from 'zod';
import { toUndo, undo as undoEntry } from '../src/desk/index.ts';
import { undoAskCard, undoneCard } from '../src/reply/index.ts';
import { type ActHandlers, type Command, type Ctx, leaf } from './command.ts';
import { optionalText } from './options.ts';
import { refused, voiceOf } from './voice.ts';

function ask(ctx: Ctx, entry: number | undefined) {
  const found = toUndo(ctx.desk, ctx.by, ctx.owner, entry);
  return found.ok ? { card: undoAskCard(voiceOf(ctx), found.value), private: true } : refused(ctx, found.fault);
}

const last = leaf({
  path: 'undo',
  description: 'Undo your last entry, or one of the last 20',
  options: [{ name: 'entry', description: 'Which entry; your last if not said', type: 'text', complete: 'entry' }],
  input: z.object({ entry: optionalText }),
  run: ({ entry }, ctx) => {
    if (entry === undefined) return ask(ctx, undefined);
    const id = Number(entry.replace(/^#/, ''));
    return Number.isInteger(id)
      ? ask(ctx, id)
      : refused(ctx, { kind: 'unknown', noun: 'entry', typed: entry, near: [] });
  },
});

export const undo: Command = { name: 'undo', description: last.description, leaves: [last] };

export const undoActs = {
  'undo-ask': ({ entry }, ctx) => ask(ctx, entry),
  'undo-now': ({ entry }, ctx) => {
    const undone = undoEntry(ctx.desk, ctx.by, ctx.owner, entry);
    if (!undone.ok) return refused(ctx, undone.fault);
    return { card: undoneCard(voiceOf(ctx), ctx.by.name, undone.value), settle: { title: 'Undone' } };
  },
} satisfies Partial<ActHandlers>;
