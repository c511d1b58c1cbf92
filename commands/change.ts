import { z } from 'zod';
import {
  changePlans,
  findTub,
  logChange,
  logMissedChange,
  todayOf,
  tubById,
  tubPlanOf,
  waterToPrepare,
} from '../src/desk/index.ts';
import { type ChangeLogged, instantOf } from '../src/domain/index.ts';
import { type Card, changeCard, changePlanCard, changesCard, refusalCard, tubPlanCard } from '../src/reply/index.ts';
import { type ActHandlers, type Command, type Ctx, leaf } from './command.ts';
import { momentOf, optionalFlag, optionalNumber, optionalText, text, tubOption, whenOption } from './options.ts';
import { runLeaf } from './run.ts';
import { refused, refusedAct, voiceOf } from './voice.ts';

const log = leaf({
  path: 'change log',
  description: 'Log a water change; without litres it is the planned one',
  options: [
    tubOption,
    { name: 'litres', description: 'Litres swapped', type: 'number' },
    { name: 'percent', description: 'Or per cent of the net volume', type: 'number' },
    whenOption,
    { name: 'note', description: 'Anything worth keeping', type: 'text' },
  ],
  input: z.object({
    tub: text,
    litres: optionalNumber,
    percent: optionalNumber,
    when: optionalText,
    note: optionalText,
    second: optionalFlag,
    sure: optionalFlag,
  }),
  run: ({ when, ...input }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const logged = logChange(ctx.desk, ctx.by, { ...input, at: at.value });
    return logged.ok
      ? { card: changeCard(voiceOf(ctx), ctx.by.name, logged.value) }
      : refusedAct(ctx, logged.fault, at.value);
  },
});

/** What is due today in all tubs, with the water for it. */
function allPlans(ctx: Ctx): Card {
  const plans = changePlans(ctx.desk);
  const today = todayOf(ctx.desk);
  const due = plans.flatMap(({ tub, plan: { dueOn, litres } }) => (dueOn <= today ? [{ tub, litres }] : []));
  return changePlanCard(voiceOf(ctx), plans, waterToPrepare(ctx.desk, due));
}

const plan = leaf({
  path: 'change plan',
  description: 'The change each tub needs, in litres, and why',
  options: [{ ...tubOption, required: false }],
  input: z.object({ tub: optionalText }),
  run: ({ tub: typed }, ctx) => {
    if (typed === undefined) return { card: allPlans(ctx) };
    const found = findTub(ctx.desk, typed);
    return found.ok ? { card: tubPlanCard(voiceOf(ctx), tubPlanOf(ctx.desk, found.value)) } : refused(ctx, found.fault);
  },
});

export const change: Command = {
  name: 'change',
  description: 'Water changes: log one, or see what is due',
  leaves: [log, plan],
};

export const changeActs = {
  'change-now': ({ tub, litres }, ctx) =>
    runLeaf(log, { tub: tubById(ctx.desk, tub)?.name ?? `tub ${tub}`, litres }, ctx),
  'change-plan': (_, ctx) => ({ card: allPlans(ctx) }),
  'change-missed': ({ entry, litres, at }, ctx) => {
    const logged = logMissedChange(ctx.desk, ctx.by, { entryId: entry, litres, at: instantOf(new Date(at)) });
    return logged.ok ? { card: changeCard(voiceOf(ctx), ctx.by.name, logged.value) } : refused(ctx, logged.fault);
  },
  'changes-done': (_, ctx, { values }) => {
    const logged: ChangeLogged[] = [];
    const notLogged: { tub: string; why: string }[] = [];
    for (const [index, value] of values.entries()) {
      const tub = tubById(ctx.desk, Number(value))?.name ?? `tub ${value}`;
      const result = logChange(ctx.desk, { ...ctx.by, key: `${ctx.by.key}#${index}` }, { tub });
      if (result.ok) logged.push(result.value);
      else notLogged.push({ tub, why: refusalCard(voiceOf(ctx), result.fault).title });
    }
    return { card: changesCard(voiceOf(ctx), ctx.by.name, logged, notLogged) };
  },
} satisfies Partial<ActHandlers>;
