import { type By, fail, ok, type Refusal, type Result } from '../../domain/index.ts';
import type { BookedSale } from '../../store/sales.ts';
import { type Desk, log } from '../desk.ts';
import { bookedSale } from './add.ts';
import { versionOf } from './edit.ts';
import { findSale, isOpen, itemWords, stateOf, wrongState } from './find.ts';
import { type WaitingList, waitingLists } from './waiting.ts';

export interface SaleCancelled {
  readonly sale: BookedSale;
  /** What was paid for it and is the buyer's again, minor units. */
  readonly paidMinor: number;
  /** Who waits for what is free again. */
  readonly waiting: readonly WaitingList[];
  readonly entryId: number;
}

/** Gives up a sale that is not sent: what it reserved is free. */
export function cancelSale(
  desk: Desk,
  by: By,
  input: { readonly sale: string; readonly reason: string },
): Result<SaleCancelled, Refusal> {
  const reason = input.reason.trim();
  if (reason === '') return fail({ kind: 'nothing-given', what: 'the reason' });
  const found = findSale(desk, input.sale, ['kept', 'lapsed', 'paid']);
  if (!found.ok) return found;
  const before = found.value;
  if (!isOpen(stateOf(desk, before))) return wrongState(desk, before, 'cancelled');
  const entryId = log(desk, by, 'sale', `sale ${before.id} cancelled: ${itemWords(before.items)}`, (entry, at) => {
    desk.store.sales.edit(entry, before.id, { ...versionOf(before), cancelled: { at, reason } });
  });
  return ok({
    sale: bookedSale(desk, before.id),
    paidMinor: before.paidMinor,
    waiting: waitingFor(desk, before),
    entryId,
  });
}

/** The lists of its lines that somebody is on. */
function waitingFor(desk: Desk, { items }: BookedSale): WaitingList[] {
  const lists = waitingLists(desk);
  return lists.ok ? lists.value.filter(({ line }) => items.some(({ of, id }) => of === 'line' && id === line.id)) : [];
}
