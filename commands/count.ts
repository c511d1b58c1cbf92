import { z } from 'zod';
import { freeOf, logCount, tubById } from '../src/desk/index.ts';
import { countMethods } from '../src/domain/index.ts';
import { type Button, button, countCard, countForm, cut, listWords, press } from '../src/reply/index.ts';
import { type ActHandlers, type Answer, type Command, leaf } from './command.ts';
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
import { logPassesLeaf } from './passes.ts';
import { runLeaf } from './run.ts';
import { readNumbers } from './typed.ts';
import { gone, notNumbers, refused, refusedAct, voiceOf, withRetry } from './voice.ts';

const log = leaf({
  path: 'count log',
  description: 'Log a count of a tub',
  options: [
    tubOption,
    { name: 'saleable', description: 'Animals of saleable size', type: 'number', required: true },
    { name: 'juveniles', description: 'Smaller ones', type: 'number' },
    { name: 'berried', description: 'Females carrying eggs', type: 'number' },
    {
      name: 'method',
      description: 'full: stripped out, dish: at the feeding dish, glance',
      type: 'text',
      choices: [...countMethods],
    },
    whenOption,
  ],
  input: z.object({
    tub: text,
    saleable: number,
    juveniles: optionalNumber,
    berried: optionalNumber,
    method: z.enum(countMethods).nullish(),
    when: optionalText,
    sure: optionalFlag,
  }),
  run: ({ when, method, ...input }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const logged = logCount(ctx.desk, ctx.by, { ...input, method: method ?? undefined, at: at.value });
    if (!logged.ok) return refusedAct(ctx, logged.fault, at.value);
    return { card: countCard(voiceOf(ctx), ctx.by.name, logged.value, freeOf(ctx.desk, logged.value.tub.lineId)) };
  },
});

export const count: Command = { name: 'count', description: 'Counts of animals', leaves: [log, logPassesLeaf] };

/** A method that is none of the three; the first button opens the form again as it was typed, the other that of removal passes. */
const badMethod = (tubId: number, typed: string, retry: Button): Answer => ({
  private: true,
  card: {
    title: 'Not logged: which way was it counted?',
    why: [`Typed: "${cut(typed)}"`],
    next: `Write ${listWords(countMethods, 'or')}; passes have a form of their own`,
    controls: [[retry, button('Count by passes', press('passes-form', { tub: tubId, caught: '' }))]],
  },
});

export const countActs = {
  'count-form': ({ tub: id }, ctx) => {
    const tub = tubById(ctx.desk, id);
    return tub === undefined ? gone : { form: countForm(tub) };
  },
  'count-send': async ({ tub: id }, ctx, { fields }) => {
    const tub = tubById(ctx.desk, id);
    if (tub === undefined) return gone;
    const typed = readNumbers(fields, ['saleable', 'juveniles', 'berried']);
    const retry = () => keepForm(ctx, press('count-form', { tub: id }), fields);
    if (typed.bad.length > 0 || typed.numbers['saleable'] === undefined)
      return notNumbers(typed.bad, 'saleable', retry());
    const typedMethod = fields['method']?.trim().toLowerCase() ?? '';
    const method = countMethods.find((known) => known === typedMethod);
    if (method === undefined && typedMethod !== '') return badMethod(id, typedMethod, retry());
    return withRetry(await runLeaf(log, { tub: tub.name, ...typed.numbers, method }, ctx), retry);
  },
} satisfies Partial<ActHandlers>;
