import { findSale, moveAllInTrouble } from '../src/desk/index.ts';
import { openMinorOf } from '../src/domain/index.ts';
import { amountForm, areaForm, cancelForm, type Press, press, salesMovedCard } from '../src/reply/index.ts';
import type { ActHandlers, Answer, Ctx, Pressed } from './command.ts';
import { keepForm } from './keptForms.ts';
import { runLeaf } from './run.ts';
import { addLeaf, cancelLeaf, editLeaf, forgetOnPress, listLeaf, paidLeaf, showLeaf } from './sale.ts';
import { readNumbers } from './typed.ts';
import { notNumbers, voiceOf, withRetry } from './voice.ts';

/** Logs a payment of all that is open; a sale without a price asks for the amount in a form. */
export function payOnPress(ctx: Ctx, sale: number): Answer | Promise<Answer> {
  const found = findSale(ctx.desk, String(sale));
  const asksAmount = found.ok && found.value.paidAt === null && openMinorOf(found.value) === null;
  return asksAmount ? { form: amountForm(voiceOf(ctx), sale) } : runLeaf(paidLeaf, { sale: String(sale) }, ctx);
}

/** What a form brought, without the fields that were left empty. */
const filled = (fields: Pressed['fields'], names: readonly string[]): Record<string, string> =>
  Object.fromEntries(names.flatMap((name) => (fields[name]?.trim() ? [[name, fields[name]]] : [])));

async function sendSale(ctx: Ctx, fields: Pressed['fields'], opener: Press): Promise<Answer> {
  const { numbers, bad } = readNumbers(fields, ['price']);
  const retry = () => keepForm(ctx, opener, fields);
  if (bad.length > 0) return notNumbers(bad, 'the price', retry());
  const raw = { ...filled(fields, ['items', 'buyer', 'dispatch-on', 'area']), ...numbers };
  return withRetry(await runLeaf(addLeaf, raw, ctx), retry);
}

async function sendAmount(ctx: Ctx, sale: number, fields: Pressed['fields']): Promise<Answer> {
  const { numbers, bad } = readNumbers(fields, ['amount']);
  const retry = () => keepForm(ctx, press('sale-paid', { sale }), fields);
  const { amount } = numbers as { amount?: number };
  if (amount === undefined) return notNumbers(bad, 'the amount', retry());
  return withRetry(await runLeaf(paidLeaf, { sale: String(sale), amount }, ctx), retry);
}

export const saleActs = {
  'sale-send': (_, ctx, { fields }) => sendSale(ctx, fields, press('sale-form', {})),
  'sale-show': ({ sale }, ctx) => runLeaf(showLeaf, { sale: String(sale) }, ctx),
  'sale-list': (_, ctx) => runLeaf(listLeaf, {}, ctx),
  'sale-pick': (_, ctx, { values }) => runLeaf(showLeaf, { sale: values[0] ?? '' }, ctx),
  'sale-paid': ({ sale }, ctx) => payOnPress(ctx, sale),
  'sale-amount-send': ({ sale }, ctx, { fields }) => sendAmount(ctx, sale, fields),
  'sale-move': ({ sale, day }, ctx) => runLeaf(editLeaf, { sale: String(sale), 'dispatch-on': day }, ctx),
  'sales-move-all': (_, ctx) => {
    const { moved, notMoved } = moveAllInTrouble(ctx.desk, ctx.by);
    return { card: salesMovedCard(voiceOf(ctx), ctx.by.name, moved, notMoved) };
  },
  'buyer-forget': ({ buyer }, ctx) => forgetOnPress(ctx, buyer),
  'sale-area-form': ({ sale }) => ({ form: areaForm(sale) }),
  'sale-area-send': ({ sale }, ctx, { fields }) =>
    runLeaf(editLeaf, { sale: String(sale), area: fields['area'] ?? '' }, ctx),
  'sale-cancel-form': ({ sale }) => ({ form: cancelForm(sale) }),
  'sale-cancel-send': ({ sale }, ctx, { fields }) =>
    runLeaf(cancelLeaf, { sale: String(sale), reason: fields['reason'] ?? '' }, ctx),
} satisfies Partial<ActHandlers>;
