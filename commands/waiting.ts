import { z } from 'zod';
import { addWaiting, linesOf, takeOffWaiting, waitingById, waitingLists } from '../src/desk/index.ts';
import {
  press,
  waitingAddedCard,
  waitingCard,
  waitingForm,
  waitingGoneCard,
  waitingOffCard,
  waitingPlaceCard,
} from '../src/reply/index.ts';
import { type ActHandlers, type Answer, type Command, type Ctx, leaf, type Pressed } from './command.ts';
import { keepForm } from './keptForms.ts';
import { optionalFlag, optionalNumber, optionalText } from './options.ts';
import { runLeaf } from './run.ts';
import { addLeaf } from './sale.ts';
import { buyerOption } from './saleOptions.ts';
import { readNumbers } from './typed.ts';
import { notNumbers, refused, voiceOf, withRetry } from './voice.ts';

const waitingLeaf = leaf({
  path: 'waiting',
  description: 'Who waits for which line, and who is next; with number and buyer: put on the list',
  options: [
    { name: 'line', description: 'Which line', type: 'text', complete: 'line' },
    { name: 'number', description: 'How many they want', type: 'integer' },
    { ...buyerOption, description: 'Who waits' },
  ],
  input: z.object({ line: optionalText, number: optionalNumber, buyer: optionalText, change: optionalFlag }),
  run: ({ line: typed, number, buyer, change }, ctx) => {
    const lines = linesOf(ctx.desk);
    if (number === undefined) {
      const lists = waitingLists(ctx.desk, { line: typed, buyer });
      return lists.ok ? { card: waitingCard(voiceOf(ctx), lists.value, lines.length) } : refused(ctx, lists.fault);
    }
    // The only line is the one that is meant.
    const line = typed ?? (lines.length === 1 ? lines[0]?.name : undefined);
    if (line === undefined) return refused(ctx, { kind: 'nothing-given', what: 'the line' });
    if (buyer === undefined) return refused(ctx, { kind: 'nothing-given', what: 'who waits' });
    const added = addWaiting(ctx.desk, ctx.by, { line, number, buyer, change });
    return added.ok ? { card: waitingAddedCard(voiceOf(ctx), ctx.by.name, added.value) } : refused(ctx, added.fault);
  },
});

export const waiting: Command = { name: 'waiting', description: waitingLeaf.description, leaves: [waitingLeaf] };

const nameOf = (ctx: Ctx, id: number): string | undefined => linesOf(ctx.desk).find((line) => line.id === id)?.name;

/** The list of a line by its id; of all for 0. */
const show = (ctx: Ctx, line: number): Answer | Promise<Answer> =>
  runLeaf(waitingLeaf, { line: nameOf(ctx, line) }, ctx);

const goneFromList: Answer = { card: waitingGoneCard, private: true };

function pick(ctx: Ctx, id: number): Answer {
  const found = waitingById(ctx.desk, id);
  return found === undefined
    ? goneFromList
    : { card: waitingPlaceCard(voiceOf(ctx), found.list, found.at, found.offer) };
}

/** Books what was offered to a buyer; the place comes off the list with it. */
function sell(ctx: Ctx, id: number, number: number): Answer | Promise<Answer> {
  const found = waitingById(ctx.desk, id);
  if (found === undefined) return goneFromList;
  const { buyer } = found.offer.waiting;
  return runLeaf(addLeaf, { items: `${number} ${found.list.line.name}`, buyer }, ctx);
}

function takeOff(ctx: Ctx, id: number): Answer {
  const off = takeOffWaiting(ctx.desk, ctx.by, id);
  return off === undefined ? goneFromList : { card: waitingOffCard(voiceOf(ctx), ctx.by.name, off) };
}

async function send(ctx: Ctx, fields: Pressed['fields']): Promise<Answer> {
  const { numbers, bad } = readNumbers(fields, ['number']);
  const retry = () => keepForm(ctx, press('waiting-form', { line: 0 }), fields);
  if (numbers['number'] === undefined) return notNumbers(bad, 'the number', retry());
  const raw = { line: fields['line']?.trim(), buyer: fields['buyer']?.trim(), ...numbers };
  return withRetry(await runLeaf(waitingLeaf, raw, ctx), retry);
}

export const waitingActs = {
  'waiting-show': ({ line }, ctx) => show(ctx, line),
  'waiting-line': (_, ctx, { values }) => show(ctx, Number(values[0])),
  'waiting-pick': (_, ctx, { values }) => pick(ctx, Number(values[0])),
  'waiting-sell': ({ waiting: id, number }, ctx) => sell(ctx, id, number),
  'waiting-off': ({ waiting: id }, ctx) => takeOff(ctx, id),
  'waiting-form': ({ line }, ctx) => ({ form: waitingForm(nameOf(ctx, line)) }),
  'waiting-send': (_, ctx, { fields }) => send(ctx, fields),
} satisfies Partial<ActHandlers>;
