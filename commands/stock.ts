import { z } from 'zod';
import { businessOf, linesOf, stockAhead, stock as stockNow, todayOf } from '../src/desk/index.ts';
import { addDays } from '../src/domain/index.ts';
import { stockCard } from '../src/reply/index.ts';
import { parseDayWords } from '../src/words/index.ts';
import { type ActHandlers, type Command, leaf } from './command.ts';
import { optionalText } from './options.ts';
import { gone, refused, voiceOf } from './voice.ts';

/** How far one line's stock is looked ahead, days. */
const aheadDays = 28;

const show = leaf({
  path: 'stock',
  description: 'How many animals there are, and how many may be promised',
  options: [
    { name: 'line', description: 'One line only', type: 'text', complete: 'line' },
    { name: 'on', description: 'A day ahead', type: 'text' },
  ],
  input: z.object({ line: optionalText, on: optionalText }),
  run: ({ line, on }, ctx) => {
    const today = todayOf(ctx.desk);
    const day = on === undefined ? null : parseDayWords(on, { today, zone: businessOf(ctx.desk).zone });
    if (day !== null && !day.ok) return refused(ctx, day.fault);
    if (day !== null && day.value < today) return refused(ctx, { kind: 'past-day', day: day.value, today });
    const found = stockNow(ctx.desk, line, day?.value);
    if (!found.ok) return refused(ctx, found.fault);
    const [only, ...others] = found.value;
    const isOne = only !== undefined && others.length === 0 && day === null && only.uncounted.length < only.tubs.length;
    const soon = addDays(today, aheadDays);
    const ahead = isOne ? { day: soon, stock: stockAhead(ctx.desk, only.line, soon) } : null;
    return { card: stockCard(voiceOf(ctx), found.value, day?.value ?? null, ahead) };
  },
});

export const stock: Command = { name: 'stock', description: show.description, leaves: [show] };

export const stockActs = {
  stock: (_, ctx) => show.handle({}, ctx),
  'stock-line': ({ line }, ctx) => {
    const found = linesOf(ctx.desk).find(({ id }) => id === line);
    return found === undefined ? gone : show.handle({ line: found.name }, ctx);
  },
} satisfies Partial<ActHandlers>;
