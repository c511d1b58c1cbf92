import { z } from 'zod';
import { freeOf, logPasses, tubById } from '../src/desk/index.ts';
import { mostPasses } from '../src/domain/index.ts';
import { passesCard, passesForm, passNames, press } from '../src/reply/index.ts';
import { type ActHandlers, leaf } from './command.ts';
import { keepForm } from './keptForms.ts';
import {
  momentOf,
  number,
  optionalFlag,
  optionalNumber,
  optionalText,
  text,
  tubOption,
  whenOption,
} from './options.ts';
import { runLeaf } from './run.ts';
import { readNumbers } from './typed.ts';
import { gone, notNumbers, refused, refusedAct, voiceOf, withRetry } from './voice.ts';

export const logPassesLeaf = leaf({
  path: 'count passes',
  description: 'Count a tub by netting it in passes of the same effort',
  options: [
    tubOption,
    { name: 'first', description: 'Saleable caught in the first pass, kept apart', type: 'number', required: true },
    { name: 'second', description: 'Caught in the second, the same net and time', type: 'number', required: true },
    { name: 'third', description: 'Caught in the third', type: 'number' },
    { name: 'fourth', description: 'Caught in the fourth', type: 'number' },
    whenOption,
  ],
  input: z.object({
    tub: text,
    first: number,
    second: number,
    third: optionalNumber,
    fourth: optionalNumber,
    when: optionalText,
    sure: optionalFlag,
  }),
  run: ({ when, ...input }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const logged = logPasses(ctx.desk, ctx.by, { ...input, at: at.value });
    if (!logged.ok) return refusedAct(ctx, logged.fault, at.value);
    return { card: passesCard(voiceOf(ctx), ctx.by.name, logged.value, freeOf(ctx.desk, logged.value.tub.lineId)) };
  },
});

/** The catches that a button carries: "79-28". */
const catchesOf = (carried: string): number[] =>
  carried
    .split('-')
    .filter((caught) => /^\d{1,4}$/.test(caught))
    .map(Number)
    .slice(0, mostPasses);

export const passesActs = {
  'passes-form': ({ tub: id, caught }, ctx) => {
    const tub = tubById(ctx.desk, id);
    return tub === undefined ? gone : { form: passesForm(tub, catchesOf(caught)) };
  },
  'passes-send': async ({ tub: id }, ctx, { fields }) => {
    const tub = tubById(ctx.desk, id);
    if (tub === undefined) return gone;
    const { numbers, bad } = readNumbers(fields, passNames);
    const retry = () => keepForm(ctx, press('passes-form', { tub: id, caught: '' }), fields);
    const missing = passNames.slice(0, 2).find((name) => numbers[name] === undefined);
    if (bad.length > 0 || missing !== undefined) return notNumbers(bad, `the ${missing ?? 'first'} pass`, retry());
    return withRetry(await runLeaf(logPassesLeaf, { tub: tub.name, ...numbers }, ctx), retry);
  },
} satisfies Partial<ActHandlers>;
