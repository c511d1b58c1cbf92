import { z } from 'zod';
import { businessOf, freeOf, setHold, todayOf, tubById } from '../src/desk/index.ts';
import { holdCard } from '../src/reply/index.ts';
import { parseDayWords } from '../src/words/index.ts';
import { type ActHandlers, type Command, type Ctx, leaf } from './command.ts';
import { optionalText, text, tubOption } from './options.ts';
import { gone, refused, voiceOf } from './voice.ts';

function put(ctx: Ctx, tub: string, reason: string, until: string | undefined) {
  const word = until?.trim().toLowerCase();
  const day =
    word === undefined || word === '' || word === 'now'
      ? null
      : parseDayWords(word, { today: todayOf(ctx.desk), zone: businessOf(ctx.desk).zone });
  if (day !== null && !day.ok) return refused(ctx, day.fault);
  const set = setHold(ctx.desk, ctx.by, { tub, reason, until: word === 'now' ? 'now' : (day?.value ?? null) });
  if (!set.ok) return refused(ctx, set.fault);
  return { card: holdCard(voiceOf(ctx), ctx.by.name, set.value, freeOf(ctx.desk, set.value.tub.lineId)) };
}

const set = leaf({
  path: 'hold',
  description: 'Take a tub off sale, or lift that with until:now',
  options: [
    tubOption,
    { name: 'reason', description: 'Medicine, trouble, quarantine, suspected mix', type: 'text', required: true },
    { name: 'until', description: 'Last day off sale ("14 Mar"); "now" lifts it; open end if not said', type: 'text' },
  ],
  input: z.object({ tub: text, reason: text, until: optionalText }),
  run: ({ tub, reason, until }, ctx) => put(ctx, tub, reason, until),
});

export const hold: Command = { name: 'hold', description: set.description, leaves: [set] };

export const holdActs = {
  'hold-now': ({ tub: id }, ctx) => {
    const tub = tubById(ctx.desk, id);
    return tub === undefined ? gone : put(ctx, tub.name, 'deaths', undefined);
  },
  'hold-lift': ({ tub: id }, ctx) => {
    const tub = tubById(ctx.desk, id);
    return tub === undefined ? gone : put(ctx, tub.name, 'lifted', 'now');
  },
} satisfies Partial<ActHandlers>;
