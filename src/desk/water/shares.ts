import type { Tub } from '../../domain/index.ts';
import type { Desk } from '../desk.ts';

/** Litres that were logged, and by which entry. */
interface LoggedLitres {
  readonly litres: number;
  readonly entryId: number;
}

/**
 * The part of a tub's water that was changed or topped up, 0 to 1: of what it held by its settings when that was logged. A tub whose net
 * litres were edited since was not changed otherwise for it.
 */
export function shareOf(desk: Desk, tub: Tub): (logged: LoggedLitres) => number {
  const versions = desk.store.tubs.netLitres(tub.id);
  return ({ litres, entryId }) => {
    const held = versions.findLast((version) => version.entryId < entryId)?.netLitres ?? tub.netLitres;
    return Math.min(1, litres / held);
  };
}
