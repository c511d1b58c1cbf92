import { linesOf, loggedBy } from '../src/desk/index.ts';
import { lineForm, type Press, press, tubsForm } from '../src/reply/index.ts';
import type { ActHandlers, Answer, Ctx, Leaf, Pressed } from './command.ts';
import { keepForm } from './keptForms.ts';
import { runLeaf } from './run.ts';
import { lineLeaf } from './setup.ts';
import { addTubsLeaf } from './tub.ts';
import { readNumbers } from './typed.ts';
import { notNumbers, refused, withRetry } from './voice.ts';

/** Runs the command behind a form of the first evening; what was typed is kept where it is refused. */
async function send(
  ctx: Ctx,
  { leaf, opener, texts, number }: { leaf: Leaf; opener: Press; texts: readonly string[]; number: string },
  fields: Pressed['fields'],
): Promise<Answer> {
  if (leaf.ownerOnly === true && !ctx.owner) return refused(ctx, { kind: 'owner-only', what: `use /${leaf.path}` });
  const { numbers, bad } = readNumbers(fields, [number]);
  const retry = () => keepForm(ctx, opener, fields);
  if (bad.length > 0) return notNumbers(bad, number, retry());
  const named = Object.fromEntries(texts.map((name) => [name, fields[name] ?? '']));
  const answer = await runLeaf(leaf, { ...named, ...numbers }, ctx);
  // Settings are answered privately, as refusals are: only what was not logged is to be corrected.
  return loggedBy(ctx.desk, ctx.by.key) === undefined ? withRetry(answer, retry) : answer;
}

export const setupFormActs = {
  'line-form': () => ({ form: lineForm() }),
  'line-send': (_, ctx, { fields }) =>
    send(ctx, { leaf: lineLeaf, opener: press('line-form', {}), texts: ['line'], number: 'price' }, fields),
  'tubs-form': (_, ctx) => ({ form: tubsForm(linesOf(ctx.desk)) }),
  'tubs-send': (_, ctx, { fields }) =>
    send(ctx, { leaf: addTubsLeaf, opener: press('tubs-form', {}), texts: ['name', 'line'], number: 'litres' }, fields),
} satisfies Partial<ActHandlers>;
