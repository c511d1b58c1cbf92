import { findTub, linesOf, undoable } from '../src/desk/index.ts';
import { mostPasses, type Refusal } from '../src/domain/index.ts';
import {
  button,
  type Card,
  type ControlRow,
  entryRow,
  nextPassButton,
  press,
  type Voice,
  waitButton,
} from '../src/reply/index.ts';
import type { Ctx } from './command.ts';
import { itemsExample } from './itemsExample.ts';

/** What leads on from a refusal and takes a look at the books: the form of a tub, a list of entries, an order in the business's own names. */
export function wayOn(ctx: Ctx, voice: Voice, fault: Refusal): Pick<Card, 'controls' | 'next'> {
  switch (fault.kind) {
    case 'not-counted':
      return countRow(ctx, fault.tubs[0]);
    case 'too-few-there':
      return countRow(ctx, fault.tub);
    case 'passes-tell-nothing':
      return passRow(ctx, fault);
    case 'not-enough':
      return waitingRow(ctx, fault);
    case 'unknown-items':
      return { next: `Write it like "${itemsExample(ctx.desk)}"` };
    case 'unknown':
      return fault.noun === 'sale'
        ? { next: 'Choose it from the list', controls: [[button('Sales', press('sale-list', {}), 'main')]] }
        : {};
    case 'nothing-to-undo': {
      const entries = ctx.owner ? undoable(ctx.desk) : [];
      return entries.length === 0
        ? { next: 'What your partner logged is for them, or an owner, to undo' }
        : { next: 'Choose the entry that you mean', controls: [entryRow(voice, entries)] };
    }
    default:
      return {};
  }
}

function countRow(ctx: Ctx, name: string | undefined): { controls?: readonly ControlRow[] } {
  const found = name === undefined ? undefined : findTub(ctx.desk, name);
  if (found?.ok !== true) return {};
  const { id, name: tub } = found.value;
  return { controls: [[button(`Count ${tub}`, press('count-form', { tub: id }), 'main')]] };
}

/** Somebody who wants more of a line than is free can wait for it. */
function waitingRow(
  ctx: Ctx,
  { what, sale }: Extract<Refusal, { kind: 'not-enough' }>,
): { controls?: readonly ControlRow[] } {
  const line = linesOf(ctx.desk).find(({ name }) => name === what);
  return line === undefined || sale !== null ? {} : { controls: [[waitButton(line.id)]] };
}

/** One more pass where one can be added, else a full count. */
function passRow(
  ctx: Ctx,
  fault: Extract<Refusal, { kind: 'passes-tell-nothing' }>,
): { controls?: readonly ControlRow[] } {
  const { tub, catches } = fault;
  if (catches.length >= mostPasses) return countRow(ctx, tub);
  const found = findTub(ctx.desk, tub);
  return found.ok ? { controls: [[nextPassButton(found.value.id, catches, 'main')]] } : {};
}
