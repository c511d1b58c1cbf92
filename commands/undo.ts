import { z } from 'zod';
import { toUndo, undoable, undo as undoEntry, undoTogether } from '../src/desk/index.ts';
import type { Entry } from '../src/domain/index.ts';
import { undoAskCard, undoneCard, undoneTogetherCard } from '../src/reply/index.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from './command.ts';
import { optionalText } from './options.ts';
import { refused, voiceOf } from './voice.ts';

/** Asks about an entry; about the asker's last with the others beside it that they may undo. */
export function askUndo(ctx: Ctx, entry: number | undefined): Answer {
  const found = toUndo(ctx.desk, ctx.by, ctx.owner, entry);
  if (!found.ok) return refused(ctx, found.fault);
  const isTheirs = ({ who }: Entry): boolean => ctx.owner || who.userId === ctx.by.userId;
  const others =
    entry === undefined ? undoable(ctx.desk).filter((other) => other.id !== found.value.id && isTheirs(other)) : [];
  return { card: undoAskCard(voiceOf(ctx), found.value, others), private: true };
}

const last = leaf({
  path: 'undo',
  description: 'Undo your last entry, or one of the last 20',
  options: [{ name: 'entry', description: 'Which entry; your last if not said', type: 'text', complete: 'entry' }],
  input: z.object({ entry: optionalText }),
  run: ({ entry }, ctx) => {
    if (entry === undefined) return askUndo(ctx, undefined);
    const id = Number(entry.replace(/^#/, ''));
    return Number.isInteger(id)
      ? askUndo(ctx, id)
      : refused(ctx, { kind: 'unknown', noun: 'entry', typed: entry, near: [] });
  },
});

export const undo: Command = { name: 'undo', description: last.description, leaves: [last] };

export const undoActs = {
  'undo-ask': ({ entry }, ctx) => askUndo(ctx, entry),
  'undo-pick': (_, ctx, { values }) => askUndo(ctx, Number(values[0])),
  'undo-together': (span, ctx) => ({
    card: undoneTogetherCard(voiceOf(ctx), ctx.by.name, undoTogether(ctx.desk, ctx.by, span)),
    settle: { title: 'Undone' },
  }),
  'undo-now': ({ entry }, ctx) => {
    const undone = undoEntry(ctx.desk, ctx.by, ctx.owner, entry);
    if (!undone.ok) return refused(ctx, undone.fault);
    return { card: undoneCard(voiceOf(ctx), ctx.by.name, undone.value), settle: { title: 'Undone' } };
  },
} satisfies Partial<ActHandlers>;
