import { z } from 'zod';
import { logTopUp } from '../src/desk/index.ts';
import { topUpCard } from '../src/reply/index.ts';
import { type Command, leaf } from './command.ts';
import { momentOf, number, optionalText, text, tubOption, whenOption } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const log = leaf({
  path: 'topup',
  description: 'Log replaced evaporation; the minerals stay in the tub',
  options: [
    tubOption,
    { name: 'litres', description: 'Litres filled up', type: 'number', required: true },
    {
      name: 'water',
      description: 'Tap, or soft (rain, osmosis); tap if not said',
      type: 'text',
      choices: ['tap', 'soft'],
    },
    whenOption,
  ],
  input: z.object({ tub: text, litres: number, water: z.enum(['tap', 'soft']).nullish(), when: optionalText }),
  run: ({ tub, litres, water, when }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const logged = logTopUp(ctx.desk, ctx.by, { tub, litres, water: water ?? undefined, at: at.value });
    return logged.ok ? { card: topUpCard(voiceOf(ctx), ctx.by.name, logged.value) } : refused(ctx, logged.fault);
  },
});

export const topup: Command = { name: 'topup', description: log.description, leaves: [log] };
