import { z } from 'zod';
import { logCost } from '../src/desk/index.ts';
import { costKinds } from '../src/domain/index.ts';
import { costCard, costForm, press } from '../src/reply/index.ts';
import { minorOf } from './amounts.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf, type Pressed } from './command.ts';
import { keepForm } from './keptForms.ts';
import { momentOf, number, optionalFlag, optionalText, text, tubOption, whenOption } from './options.ts';
import { runLeaf } from './run.ts';
import { readNumbers } from './typed.ts';
import { notNumbers, refused, refusedAct, voiceOf, withRetry } from './voice.ts';

const log = leaf({
  path: 'cost',
  description: 'Log money that went out',
  options: [
    { name: 'amount', description: 'How much', type: 'number', required: true },
    { name: 'what', description: 'What for: flakes, 50 bags, postage of 41', type: 'text', required: true },
    { name: 'kind', description: 'As the words say, or other', type: 'text', choices: costKinds },
    whenOption,
    { ...tubOption, description: 'If it was for one: its line bears it', required: false },
  ],
  input: z.object({
    amount: number,
    what: text,
    kind: z.enum(costKinds).nullish(),
    when: optionalText,
    tub: optionalText,
    again: optionalFlag,
  }),
  run: ({ amount, when, kind, ...input }, ctx) => {
    const at = momentOf(ctx, when);
    if (!at.ok) return refused(ctx, at.fault);
    const amountMinor = minorOf(ctx, 'amount', amount);
    if (!amountMinor.ok) return refused(ctx, amountMinor.fault);
    const cost = { ...input, amountMinor: amountMinor.value ?? 0, kind: kind ?? undefined, at: at.value };
    const logged = logCost(ctx.desk, ctx.by, cost);
    return logged.ok
      ? { card: costCard(voiceOf(ctx), ctx.by.name, logged.value) }
      : refusedAct(ctx, logged.fault, at.value);
  },
});

export const cost: Command = { name: 'cost', description: log.description, leaves: [log] };

/** What the form brought; a kind in words of its own is left to what the cost was for. */
async function sendCost(ctx: Ctx, fields: Pressed['fields']): Promise<Answer> {
  const { numbers, bad } = readNumbers(fields, ['amount']);
  const retry = () => keepForm(ctx, press('cost-form', {}), fields);
  const { amount } = numbers as { amount?: number };
  if (amount === undefined) return notNumbers(bad, 'the amount', retry());
  const said = (name: string): string | undefined => fields[name]?.trim() || undefined;
  const kind = costKinds.find((known) => known === said('kind')?.toLowerCase());
  const raw = { amount, what: said('what') ?? '', kind, tub: said('tub'), when: said('when') };
  return withRetry(await runLeaf(log, raw, ctx), retry);
}

export const costActs = {
  'cost-form': (_, ctx) => ({ form: costForm(voiceOf(ctx)) }),
  'cost-send': (_, ctx, { fields }) => sendCost(ctx, fields),
} satisfies Partial<ActHandlers>;
