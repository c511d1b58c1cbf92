import { z } from 'zod';
import { setSeason } from '../src/desk/index.ts';
import { type MonthDay, ok, type Refusal, type Result } from '../src/domain/index.ts';
import { seasonCard } from '../src/reply/index.ts';
import { parseMonthDayWords } from '../src/words/index.ts';
import { type Command, leaf } from './command.ts';
import { optionalFlag, optionalText } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const set = leaf({
  path: 'season',
  description: 'Closed stretches of the year, and what they mean for open sales',
  options: [
    { name: 'close-from', description: 'First closed day: "15 Nov", 11-15', type: 'text' },
    { name: 'close-to', description: 'Last closed day; may be in the next year', type: 'text' },
    { name: 'name', description: 'What it is called; an existing one is changed', type: 'text', complete: 'window' },
    { name: 'remove', description: 'Remove the one of that name', type: 'boolean' },
  ],
  input: z.object({
    'close-from': optionalText,
    'close-to': optionalText,
    name: optionalText,
    remove: optionalFlag,
  }),
  run: ({ 'close-from': typedFrom, 'close-to': typedTo, name, remove }, ctx) => {
    const from = monthDayIn(typedFrom);
    if (!from.ok) return refused(ctx, from.fault);
    const to = monthDayIn(typedTo);
    if (!to.ok) return refused(ctx, to.fault);
    const answer = setSeason(ctx.desk, ctx.by, { from: from.value, to: to.value, name, remove });
    return answer.ok ? { card: seasonCard(voiceOf(ctx), ctx.by.name, answer.value) } : refused(ctx, answer.fault);
  },
});

function monthDayIn(typed: string | undefined): Result<MonthDay | undefined, Refusal> {
  return typed === undefined || typed.trim() === '' ? ok(undefined) : parseMonthDayWords(typed);
}

export const season: Command = { name: 'season', description: set.description, leaves: [set] };
