import { z } from 'zod';
import { logLoss, runningTrouble } from '../src/desk/index.ts';
import { severalDead } from '../src/domain/index.ts';
import { lossCard, withTrouble } from '../src/reply/index.ts';
import { type Command, leaf } from './command.ts';
import { momentOf, number, optionalText, text, tubOption, whenOption } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const log = leaf({
  path: 'loss',
  description: 'Log animals found dead',
  options: [
    tubOption,
    { name: 'number', description: 'How many', type: 'number', required: true },
    { name: 'cause', description: 'What it looked like: white ring, old age, not known', type: 'text' },
    whenOption,
  ],
  input: z.object({ tub: text, number, cause: optionalText, when: optionalText }),
  run: ({ when, ...input }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const logged = logLoss(ctx.desk, ctx.by, { ...input, at: at.value });
    if (!logged.ok) return refused(ctx, logged.fault);
    const { tub, inAWeek } = logged.value;
    const card = lossCard(voiceOf(ctx), ctx.by.name, logged.value);
    if (inAWeek < severalDead) return { card };
    return { card: withTrouble(card, tub, runningTrouble(ctx.desk, ctx.by, tub) !== null) };
  },
});

export const loss: Command = { name: 'loss', description: log.description, leaves: [log] };
