import { z } from 'zod';
import { businessOf, forecastLine, linesOf, todayOf } from '../src/desk/index.ts';
import { forecastCard, pickLineCard } from '../src/reply/index.ts';
import { parseDayWords } from '../src/words/index.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from './command.ts';
import { optionalNumber, optionalText, text } from './options.ts';
import { gone, refused, voiceOf } from './voice.ts';

const show = leaf({
  path: 'forecast',
  description: 'A line over the coming months, and what it bears a week',
  options: [
    { name: 'line', description: 'Which line', type: 'text', required: true, complete: 'line' },
    { name: 'weekly-sales', description: 'Animals sold a week, extras included; as now if not said', type: 'number' },
    { name: 'until', description: 'A day up to two years ahead; the re-opening if not said', type: 'text' },
  ],
  input: z.object({ line: text, 'weekly-sales': optionalNumber, until: optionalText }),
  run: ({ line, 'weekly-sales': weeklySales, until: typed }, ctx) => {
    const until = typed === undefined || typed.trim() === '' ? null : dayIn(ctx, typed);
    if (until !== null && !until.ok) return refused(ctx, until.fault);
    const found = forecastLine(ctx.desk, line, { weeklySales, until: until?.value });
    return found.ok ? { card: forecastCard(voiceOf(ctx), found.value) } : refused(ctx, found.fault);
  },
});

const dayIn = (ctx: Ctx, typed: string) =>
  parseDayWords(typed, { today: todayOf(ctx.desk), zone: businessOf(ctx.desk).zone });

export const forecast: Command = { name: 'forecast', description: show.description, leaves: [show] };

/** The forecast of a line by its id, as controls carry it. */
function forecastOf(ctx: Ctx, id: number): Answer | Promise<Answer> {
  const line = linesOf(ctx.desk).find((known) => known.id === id);
  return line === undefined ? gone : show.handle({ line: line.name }, ctx);
}

export const forecastActs = {
  forecast: ({ line }, ctx) => forecastOf(ctx, line),
  'forecast-pick': (_, ctx) => {
    const lines = linesOf(ctx.desk);
    const [only, ...others] = lines;
    return only !== undefined && others.length === 0
      ? forecastOf(ctx, only.id)
      : { card: pickLineCard(lines), private: true };
  },
  'forecast-picked': (_, ctx, { values }) => forecastOf(ctx, Number(values[0])),
} satisfies Partial<ActHandlers>;
