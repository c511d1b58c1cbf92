import type { Desk } from '../desk.ts';
import { buyerNamed } from './find.ts';

/** The buyer's id, under which the name is kept; a new name is written down. Null where nobody was named. */
export function buyerIdOf(desk: Desk, entryId: number, typed: string | undefined): number | null {
  const name = typed?.trim() ?? '';
  if (name === '') return null;
  return buyerNamed(desk, name) ?? desk.store.sales.addBuyer(entryId, name);
}
