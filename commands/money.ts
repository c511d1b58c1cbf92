import { z } from 'zod';
import { moneyReport, moneyYear, taxYearBegins, todayOf } from '../src/desk/index.ts';
import { day, monthOf, type Period, taxYearOf } from '../src/domain/index.ts';
import { moneyCard, moneyYearCard } from '../src/reply/index.ts';
import { parsePeriod } from '../src/words/index.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf } from './command.ts';
import { optionalText } from './options.ts';
import { refused, voiceOf } from './voice.ts';

const show = leaf({
  path: 'money',
  description: 'Takings, fees, refunds, costs and what is left, of a month or a year',
  options: [
    { name: 'month', description: 'This one if not said: "2026-10", "October", "last month", "2026"', type: 'text' },
  ],
  input: z.object({ month: optionalText }),
  run: ({ month }, ctx) => {
    const said = parsePeriod(month === undefined || month.trim() === '' ? 'this month' : month, todayOf(ctx.desk));
    if (!said.ok) return refused(ctx, said.fault);
    return said.value.of === 'year' ? yearAnswer(ctx, said.value.year) : monthAnswer(ctx, monthOf(said.value.first));
  },
});

export const money: Command = { name: 'money', description: show.description, leaves: [show] };

const monthAnswer = (ctx: Ctx, month: Period): Answer => {
  const year = taxYearOf(month.first, taxYearBegins(ctx.desk)).first.slice(0, 4);
  return { card: moneyCard(voiceOf(ctx), moneyReport(ctx.desk, month), year) };
};

/** The tax year that begins in a year; of one that has not begun yet, the one before. */
function yearAnswer(ctx: Ctx, year: number): Answer {
  const begins = taxYearBegins(ctx.desk);
  const asked = taxYearOf(day(`${year}-12-31`), begins);
  const whole =
    asked.first > todayOf(ctx.desk) && year === Number(todayOf(ctx.desk).slice(0, 4))
      ? taxYearOf(todayOf(ctx.desk), begins)
      : asked;
  return { card: moneyYearCard(voiceOf(ctx), moneyYear(ctx.desk, whole)) };
}

export const moneyActs = {
  'money-show': ({ month }, ctx) => show.handle({ month }, ctx),
  'money-pick': (_, ctx, { values }) => show.handle({ month: values[0] ?? '' }, ctx),
} satisfies Partial<ActHandlers>;
