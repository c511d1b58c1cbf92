import { z } from 'zod';
import { logMove } from '../src/desk/index.ts';
import { stages } from '../src/domain/index.ts';
import { moveCard } from '../src/reply/index.ts';
import { type Command, leaf } from './command.ts';
import { momentOf, number, optionalFlag, optionalText, text, whenOption } from './options.ts';
import { refused, refusedAct, voiceOf } from './voice.ts';

const log = leaf({
  path: 'move',
  description: 'Log animals moved from one tub to another',
  options: [
    { name: 'from', description: 'Out of which tub', type: 'text', required: true, complete: 'tub' },
    { name: 'to', description: 'Into which tub', type: 'text', required: true, complete: 'tub' },
    { name: 'number', description: 'How many', type: 'number', required: true },
    { name: 'stage', description: 'Saleable if not said', type: 'text', choices: [...stages] },
    whenOption,
  ],
  input: z.object({
    from: text,
    to: text,
    number,
    stage: z.enum(stages).nullish(),
    when: optionalText,
    mix: optionalFlag,
  }),
  run: ({ when, stage, ...input }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const logged = logMove(ctx.desk, ctx.by, { ...input, stage: stage ?? undefined, at: at.value });
    return logged.ok
      ? { card: moveCard(voiceOf(ctx), ctx.by.name, logged.value) }
      : refusedAct(ctx, logged.fault, at.value);
  },
});

export const move: Command = { name: 'move', description: log.description, leaves: [log] };
